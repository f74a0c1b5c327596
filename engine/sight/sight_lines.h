// How much sight passes between two points, and what takes it.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/shade/beam/casters.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::sight {

// m, of shoulders; common practice, no source.
inline constexpr double kPersonWide = 0.6;

// What one named thing leaves of the sight on a line: 0 for a solid.
struct Taken {
  int thing = 0;
  double share = 1.0;
};

// Is some object, but no more than that on plan, in the way of sight?
bool any_narrow(const Model& model, double narrowest);

class SightLines {
 public:
  // `narrowest`: objects no wider than that on plan are left out (m; 0 = none).
  SightLines(const Model& model, bool bare, double narrowest = 0.0);

  // Share passed by sheets and leaves (not solids, not the ground) between a and b, 0..1. Stops
  // looking once it is below `least`.
  double translucent_share(Vec3 a, Vec3 b, double least) const;
  bool has_translucent() const { return has_translucent_; }
  // Does anything on the site have a bare season?
  bool seasonal() const;
  // Bit k set = something solid stands between the eye and target k; the first `count` are asked.
  std::uint32_t blocked(Vec3 eye, const std::array<Vec3, 16>& targets, int count) const;
  bool blocked(Vec3 a, Vec3 b) const;

  // The thing within whose closed, opaque solid a person with that eye stands, by the eye or half a
  // metre below it, or whose leaves are round the eye, where it is wide enough for a person to be
  // in (kPersonWide): a hall, a crown, not a post. -1 = none.
  int inside(Vec3 eye) const;

  // Everything but the ground on the line, each thing once, in order of its number.
  std::vector<Taken> taken(Vec3 a, Vec3 b) const;
  const std::string& name(int thing) const { return names_[static_cast<std::size_t>(thing)]; }
  int things() const { return static_cast<int>(names_.size()); }

 private:
  void number_things();
  int inside_of(const geom::RayScene& scene, Vec3 point) const;
  double leaf_share(const std::vector<geom::Hit>& hits, std::size_t first, Vec3 direction) const;
  double sheet_share(const geom::Hit& hit, Vec3 direction) const;

  const Model& model_;
  bool bare_;
  std::vector<shade::Caster> casters_;
  std::vector<int> thing_of_;  // of a caster
  std::vector<std::string> names_;
  geom::RayScene solids_, sheets_, leaves_;
  bool has_sheets_ = false, has_leaves_ = false, has_translucent_ = false;
};

}  // namespace hummock::sight

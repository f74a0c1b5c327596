// The horizon that the land beyond the modelled ground makes (Model::beyond).
//
// From each of at most kPosts × kPosts places over the yard, in kAzimuths directions, the steepest
// line that the land beyond touches. At a point the places round it are weighed by their nearness
// and the lines tilted for its height above or below theirs; between directions the line is linear.
// The land is met exactly as it is triangulated. Error: against rays at the land itself less than
// half a degree where it begins 10 m away, less farther out (tested). Earth's curvature is left out
// (2 cm at 500 m, 8 cm at 1 km).
#pragma once

#include <vector>

#include "engine/model/model.h"
#include "engine/shade/beam/sun_ray.h"
#include "engine/shade/beam/terrain_clear.h"
#include "geometry/plan/grid.h"

namespace hummock::shade {

class FarHorizon {
 public:
  static constexpr int kAzimuths = 360;
  static constexpr int kPosts = 16;
  explicit FarHorizon(const Model& model);
  bool any() const { return !touches_.empty(); }
  // Does the land beyond hide the sun from this point?
  bool hides(Vec3 from, const SunRay& sun) const;
  // Of all points of the box: clear and hidden are said with `kSure` to spare.
  enum class Over { clear, part, hidden };
  Over over(const geom::Box3& box, const SunRay& sun) const;
  // Could it hide any sun of the range from any place?
  bool may_hide(const RunRange& run) const;

 private:
  static constexpr double kSure = 0.02;  // of the tangent
  // The steepest line: its tangent, and how much it steepens for a metre less height.
  struct Touch {
    float tangent, per_metre;
  };
  double tangent_at(Vec3 from, const SunRay& sun) const;
  // `highest`: of the land beyond, m.
  void look_from(const Model& model, std::size_t post, double highest);

  geom::Grid posts_;
  std::vector<float> height_;   // of each post
  std::vector<Touch> touches_;  // kAzimuths a post
  double steepest_ = -1e30;     // from anywhere on the ground
};

}  // namespace hummock::shade

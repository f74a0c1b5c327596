// The beam by rays: the reference, and what decides where the fast path cannot.
#pragma once

#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

#include "engine/shade/beam/casters.h"
#include "engine/shade/beam/far_horizon.h"
#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/sun_ray.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::shade {

class RayBeam {
 public:
  // Casters with `heavy[k]` set also go, with the ground, into the scene of `blocked`; they must be
  // opaque. `model` and `casters` must outlive this. `far`: of the same land, or nothing.
  RayBeam(const Model& model, const std::vector<Caster>& casters, const std::vector<bool>& heavy,
          std::shared_ptr<const FarHorizon> far = {});

  // Share of the beam that arrives at a point along the sun's line, 0..1.
  double at(Vec3 from, const SunRay& sun, const sun::Date& date) const;
  // The same for the nodes of a tile, in packets; 0 where the ground faces away (FirstTriangle).
  void tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
            std::array<float, kTileNodes>& beam) const;
  const FarHorizon& far() const { return *far_; }
  const std::shared_ptr<const FarHorizon>& shared_far() const { return far_; }
  // Sets beam to 0 at those of the nodes whose line meets the ground or a heavy caster.
  void blocked(const Tile& tile, const SunRay& sun, std::span<const int> nodes,
               std::array<float, kTileNodes>& beam) const;

 private:
  double through_translucent(Vec3 from, const SunRay& sun, const sun::Date& date) const;
  double through_round(Vec3 from, const SunRay& sun, const sun::Date& date) const;

  const std::vector<Caster>* casters_;
  // A scene is built when first asked: many a day needs only one of the two.
  struct Lazy {
    std::once_flag once;
    geom::RayScene scene;
  };
  const geom::RayScene& opaque() const;  // the ground and all that is opaque
  const geom::RayScene& heavy() const;   // the ground and the heavy ones
  void build(geom::RayScene& scene, bool only_heavy) const;

  const Model* model_;
  std::vector<bool> is_heavy_;
  bool translucent_any_ = false;
  std::vector<const Caster*> round_;
  std::shared_ptr<const FarHorizon> far_;
  mutable Lazy opaque_, heavy_;
  geom::RayScene translucent_;  // sheets and volumes but the round; id = index of the caster
};

// The triangle of the ground over which a line to the sun leaves a node, by the two of its sides
// that meet there: it rises `a` times the one's rise and `b` times the other's for each metre the
// line rises. At 1 and more the line runs along or under it: that ground faces away from the sun.
// The same sum in both paths.
struct FirstTriangle {
  Way first = kEast, second = kNorth;
  float a = 0, b = 0;
  explicit FirstTriangle(Vec2 run) {
    const auto set = [&](Way u, double along_u, Way v, double along_v) {
      first = u;
      second = v;
      a = static_cast<float>(along_u);
      b = static_cast<float>(along_v);
    };
    const double x = std::abs(run.x), y = std::abs(run.y);
    if (run.x >= 0.0 && run.y >= 0.0) {
      set(kEast, x, kNorth, y);
    } else if (run.x <= 0.0 && run.y <= 0.0) {
      set(kWest, x, kSouth, y);
    } else if (run.x < 0.0) {
      x >= y ? set(kWest, x - y, kNorthWest, y) : set(kNorth, y - x, kNorthWest, x);
    } else {
      x >= y ? set(kEast, x - y, kSouthEast, y) : set(kSouth, y - x, kSouthEast, x);
    }
  }
  bool faces(const Tile& tile, std::size_t k) const {
    return tile.rise[first][k] * a + tile.rise[second][k] * b < 1.0F;
  }
};

inline bool faces(const Tile& tile, std::size_t k, const SunRay& sun) {
  return FirstTriangle(sun.run).faces(tile, k);
}

}  // namespace hummock::shade

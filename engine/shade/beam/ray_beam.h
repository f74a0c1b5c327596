// The beam by rays: the reference, and what decides where the fast path cannot.
#pragma once

#include <array>
#include <mutex>
#include <span>
#include <vector>

#include "engine/shade/beam/casters.h"
#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/sun_ray.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::shade {

class RayBeam {
 public:
  // Casters with `heavy[k]` set also go, with the ground, into the scene of `blocked`; they must be
  // opaque. `model` and `casters` must outlive this.
  RayBeam(const Model& model, const std::vector<Caster>& casters, const std::vector<bool>& heavy);

  // Share of the beam that arrives at a point along the sun's line, 0..1.
  double at(Vec3 from, const SunRay& sun, const sun::Date& date) const;
  // The same for the nodes of a tile, in packets; 0 where the ground faces away.
  void tile(const Tile& tile, const SunRay& sun, const sun::Date& date,
            std::array<float, kTileNodes>& beam) const;
  // Sets beam to 0 at those of the nodes whose line meets the ground or a heavy caster.
  void blocked(const Tile& tile, const SunRay& sun, std::span<const int> nodes,
               std::array<float, kTileNodes>& beam) const;

 private:
  double through_translucent(Vec3 from, const SunRay& sun, const sun::Date& date) const;

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
  mutable Lazy opaque_, heavy_;
  geom::RayScene translucent_;  // sheets and volumes; id = index of the caster
};

// Does the ground at the node face the sun? The same sum in both paths.
inline bool faces(const Tile& tile, std::size_t k, const SunRay& sun) {
  return tile.gx[k] * static_cast<float>(sun.run.x) + tile.gy[k] * static_cast<float>(sun.run.y) <
         1.0F;
}

}  // namespace hummock::shade

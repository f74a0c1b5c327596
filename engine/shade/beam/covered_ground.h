// Ground that lies inside a stone, a house or a den: not ground to stand on, lit or not.
#pragma once

#include <vector>

#include "engine/model/model.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::shade {

class CoveredGround {
 public:
  // The closed solids of objects, dens, houses and posts.
  explicit CoveredGround(const Model& model);
  // Does the ground at p lie inside one of them? A body's height of `room` (m) above the ground is
  // asked for too: what lies under the belly of a stone is not open either.
  bool at(Vec2 p, double room = 0.0) const;

 private:
  const geom::Heightfield* ground_;
  geom::RayScene solids_;
  std::vector<geom::Box3> boxes_;
};

}  // namespace hummock::shade

// A crown's shade over a tile in closed form: the chord of the line to the sun through the ball,
// cone or cylinder it is drawn as.
//
// float32 about the tile: the chord of a ball is off by less than 1e-4 of its radius at 100 radii
// away (the part of a node's place across the line is taken first, so nothing large cancels).
#pragma once

#include <array>

#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/sun_ray.h"
#include "geometry/mesh/round_volume.h"

namespace hummock::shade {

class RoundShade {
 public:
  RoundShade(const geom::RoundBody& body, const SunRay& sun, Vec3 ref);
  // False is certain: no line from the tile's box meets the body's own round hull.
  bool may_meet(const Tile& tile) const;
  // Adds extinction · chord to each node's depth, extinction in 1/m.
  void deepen(const Tile& tile, float extinction, float* depth) const;

 private:
  void deepen_ball(const Tile& tile, float extinction, float* depth) const;

  const geom::RoundBody* body_;
  Vec3 ref_, towards_;
  // The unit body about its middle: a ball of radius 1 holds a ball, of √2 a cone or cylinder.
  Vec3 from_, along_;           // of `ref`, and of a metre towards the sun
  Vec3 per_x_, per_y_, per_z_;  // of a metre east, north and up
  double hull_ = 1.0;
};

}  // namespace hummock::shade

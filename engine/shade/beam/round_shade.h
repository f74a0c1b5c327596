// A crown's shade over a tile in closed form: the chord of the line to the sun through the ball,
// cone or cylinder it is drawn as.
//
// float32 about the tile: the chord of a ball is off by less than 1e-4 of its radius at 100 radii
// away (the part of a node's place across the line is taken first, so nothing large cancels).
#pragma once

#include <array>
#include <cstdint>

#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/shadow_nodes.h"
#include "engine/shade/beam/sun_ray.h"
#include "engine/shade/cast/shadow_boxes.h"
#include "geometry/mesh/round_volume.h"

namespace hummock::shade {

class RoundShade {
 public:
  // `ref`: of the shadow coordinates below.
  RoundShade(const geom::RoundBody& body, const SunRay& sun, Vec3 ref);
  // Holds every node that deepen() could deepen; without the highest that casts.
  ShadowBox box() const;
  // A bit for each run of the nodes of which some could be deepened; they are laid out from `ref`.
  std::uint32_t runs(const ShadowNodes& nodes) const;
  // Adds extinction · chord to the depth of each node of those runs, extinction in 1/m.
  void deepen(const Tile& tile, std::uint32_t runs, float extinction, float* depth) const;

  // The hull's shadow, with a little to spare: |(xx dx + xy dy, yy dy)| <= hull, (dx, dy) from
  // (x, y). `reach_y`: length of what is north.
  struct Around {
    float x, y, xx, xy, yy, reach_y, hull;
  };

 private:
  struct Outline {
    double x = 0, y = 0, xx = 1, xy = 0, yy = 1;
  };
  void set_outline();
  Vec3 across(Vec3 v) const;
  void deepen_ball(const Tile& tile, std::uint32_t runs, float extinction, float* depth) const;

  const geom::RoundBody* body_;
  Vec3 ref_, towards_;
  // The unit body about its middle: a ball of radius 1 holds a ball, of √2 a cone or cylinder.
  Vec3 from_, along_;           // of `ref`, and of a metre towards the sun
  Vec3 per_x_, per_y_, per_z_;  // of a metre east, north and up
  double along2_ = 1.0;         // of along_, its length's square
  // What of such a metre lies across the line, and how far along it a metre more the middle lies.
  Vec3 across_x_, across_y_, across_z_, nearest_;
  double hull_ = 1.0;
  Vec2 run_;
  Outline outline_;  // Around as computed
  Around around_{};
};

}  // namespace hummock::shade

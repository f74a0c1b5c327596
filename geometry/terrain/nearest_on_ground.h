// The nearest place of the ground to a point.
#pragma once

#include <optional>

#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// Of the ground on the side of a line on plan: all q with dot(q − at, towards) ≥ 0.
struct GroundSide {
  Vec2 at, towards;
};

// Nearer than `within` metres; none when no ground is. Exact for the ground's triangles. Cost: the
// cells whose heights come within that reach.
std::optional<Vec3> nearest_on_ground(const Heightfield& ground, Vec3 p, const GroundSide& side,
                                      double within);

}  // namespace hummock::geom

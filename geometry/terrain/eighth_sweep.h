// One eighth of a viewshed (viewshed.h): the sweep outwards, column by column, with the skyline of
// everything nearer.
#pragma once

#include "geometry/plan/grid.h"
#include "geometry/terrain/heightfield.h"
#include "geometry/terrain/viewshed.h"

namespace hummock::geom {

// Heights this close below a skyline are rounding, not hiding: m for each metre of height in play.
inline constexpr double kSkylineRounding = 1e-12;

// One eighth of the plane seen from the eye: p along an axis, q across it, both >= 0, in cells.
struct Eighth {
  bool along_x = true;
  int sign_p = 1, sign_q = 1;
};

// Writes the least height in sight of each node the eighth owns; eight of them own every node once.
// The eye is over the ground's grid. No farther than the nodes of `wanted` ask.
void sweep_eighth(const Heightfield& ground, Vec3 eye, Eighth way, const NodeRange& wanted,
                  Raster& out);

}  // namespace hummock::geom

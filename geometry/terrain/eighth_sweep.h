// One eighth of a viewshed (viewshed.h): the sweep outwards, column by column, with the skyline of
// everything nearer.
#pragma once

#include "geometry/plan/grid.h"
#include "geometry/terrain/heightfield.h"
#include "geometry/terrain/hidden_run.h"
#include "geometry/terrain/viewshed.h"

namespace hummock::geom {

// Heights this close below a skyline are rounding, not hiding: m for each metre of height in play.
inline constexpr double kSkylineRounding = 1e-12;

// Where the answers of all nodes go (hidden_run.h tells of one column's).
struct ViewAnswers {
  float* least = nullptr;
  std::uint8_t* hidden = nullptr;
  double tall = 0.0;  // m
  ColumnAnswers of(std::ptrdiff_t first_node, std::ptrdiff_t stride) const {
    return {least == nullptr ? nullptr : least + first_node,
            hidden == nullptr ? nullptr : hidden + first_node, stride, tall};
  }
};

// One eighth of the plane seen from the eye: p along an axis, q across it, both >= 0, in cells.
struct Eighth {
  bool along_x = true;
  int sign_p = 1, sign_q = 1;
};

// Writes the answer of each node the eighth owns, unless it is 0; eight of them own every node
// once. The eye is over the ground's grid. No farther than the nodes of `wanted` ask.
void sweep_eighth(const Heightfield& ground, Vec3 eye, Eighth way, const NodeRange& wanted,
                  const ViewAnswers& answers);

}  // namespace hummock::geom

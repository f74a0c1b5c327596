// The largest circle that lies free between solid pieces of a plane.
#pragma once

#include <array>
#include <vector>

#include "geometry/plan/polygon.h"

namespace hummock::geom {

// A solid triangle; two corners that are the same make it a segment, which blocks as well.
using SolidPiece = std::array<Vec2, 3>;

struct FreeCircleSearch {
  Box2 window;                // where the circle's middle may lie
  std::vector<Vec2> ceiling;  // the middle lies on or below this line: x rises, or stays at a step,
                              // where the lower counts; empty = no ceiling
  double above = 0.0;         // m, radius of interest: a smaller circle is not looked for
  double precision = 1e-4;    // m > 0
};

// Within `precision` metres of the largest radius and never larger; radius 0 when no circle is
// larger than `above`. Quadtree search by cell bounds: each cell measures every piece, so keep the
// pieces to those near the window.
Circle largest_free_circle(const std::vector<SolidPiece>& solids, const FreeCircleSearch& search);

}  // namespace hummock::geom

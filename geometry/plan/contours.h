// Lines of equal value across a raster.
#pragma once

#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/vec.h"

namespace hummock::geom {

struct Contour {
  double level = 0.0;
  std::vector<Vec2> line;  // >= 2 points; first == last when closed
};

// Contours at whole multiples of `step` (> 0) above `base`, on the heightfield's own triangulation
// (each cell as the triangles a,b,d and c,d,b), so a contour lies exactly on the drawn surface.
// Cells with a corner without value are left out. Levels rise; within one level the order is that
// of the cells.
std::vector<Contour> contours(const Raster& raster, double step, double base = 0.0);

// A round step (1, 2 or 5 times a power of ten) that gives about `wanted` levels between lo and hi.
double round_step(double lo, double hi, int wanted);

}  // namespace hummock::geom

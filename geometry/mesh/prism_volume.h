// Volume between two grounds that share a grid, by prisms on their common triangulation.
//
// Both grounds are the piecewise flat surfaces of heightfield.h, split along the same diagonals, so
// over one triangle their difference d is a plane. The prism under it is cut along the line d = 0;
// each piece's volume is its plan area times the mean of d at its corners, which is exact for a
// plane. So cut and fill are the exact volumes between the two surfaces, up to rounding (about
// 1e-13 of the sum of |d|): there is no sampling and no average-end-area.
#pragma once

#include "geometry/mesh/mesh.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// The two sides of a difference, each >= 0.
struct PrismSums {
  double above_m3 = 0.0;       // ∫ max(d, 0) dA
  double below_m3 = 0.0;       // ∫ max(−d, 0) dA
  double above_area_m2 = 0.0;  // plan area where d > 0
  double below_area_m2 = 0.0;  // plan area where d < 0
  PrismSums& operator+=(const PrismSums& other);
};

// One triangle: plan area (m², >= 0) and the difference at its corners.
PrismSums prism(double plan_area, double d0, double d1, double d2);

// upper − lower over the whole grid. The grids must be equal (throws std::invalid_argument).
// Linear in the number of cells; rows are summed one by one, so the bits do not depend on threads.
PrismSums prism_sums(const Heightfield& upper, const Heightfield& lower);

// The same over a polygon only: triangles at its edge are cut there, exactly.
PrismSums prism_sums(const Heightfield& upper, const Heightfield& lower, const Polygon& inside);

// A mesh's own heights against a level plane: d = z − level, plan areas by the x, y of its corners
// (the winding does not matter). With a ground cut out by a polygon this gives the water a basin
// holds: `below_m3` and `below_area_m2`.
PrismSums prism_sums(const Mesh& mesh, double level);

}  // namespace hummock::geom

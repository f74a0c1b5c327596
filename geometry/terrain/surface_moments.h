// Height statistics of the ground over a polygon, exact for the triangulated surface.
//
// The surface of geometry/terrain/heightfield.h is linear on each triangle, and each triangle is
// cut at the polygon's edges; sums of powers of height, of |height| and of the gradient over a
// triangle have closed forms, so the only error against a smooth surface is that of the
// triangulation: second order in the cell for all sums, extremes included; none of it from the
// polygon's edge. The exception: the gradient terms (Sdq, Sdr) are of the flat triangles, also
// second order.
//
// Closed forms, for a triangle of area A with corner values a, b, c (linear between):
//   ∫ zⁿ = A · 2 / ((n+1)(n+2)) · hₙ(a, b, c), hₙ the complete homogeneous symmetric polynomial;
//   ∫ z w = A/12 · (Σz·Σw + Σ zᵢwᵢ);  ∫ |z| by cutting off the corner of the other sign.
#pragma once

#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// z = at_centre + gx·(x − centre.x) + gy·(y − centre.y).
struct Plane {
  Vec2 centre;
  double at_centre = 0.0;  // m
  double gx = 0.0;
  double gy = 0.0;
  double at(Vec2 p) const { return at_centre + gx * (p.x - centre.x) + gy * (p.y - centre.y); }
};

struct SurfaceMoments {
  double area_m2 = 0.0;  // in plan
  Plane plane;           // least squares over the polygon: ∫ (z − plane)² dA is least
  // Means over the area, d = z − plane.
  double mean_abs = 0.0;  // m
  double mean_square = 0.0, mean_cube = 0.0, mean_fourth = 0.0;
  double highest = 0.0, lowest = 0.0;  // m, of d
  double mean_gradient_square = 0.0;   // of d
  double mean_excess_area = 0.0;       // mean of √(1 + |∇d|²) − 1
  double z_max = 0.0, z_min = 0.0;     // m, of the surface itself
};

// The polygon must be simple, with an area, and lie on the grid.
SurfaceMoments surface_moments(const Heightfield& ground, const Polygon& inside);

}  // namespace hummock::geom

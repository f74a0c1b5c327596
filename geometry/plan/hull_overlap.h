// Do two convex plans stand in each other's way?
#pragma once

#include "geometry/plan/polygon.h"

namespace hummock::geom {

// Do two convex hulls (counter-clockwise) overlap by more than `by` metres? By separating axes; a
// hull of fewer than three points overlaps nothing.
bool hulls_overlap(const Polygon& a, const Polygon& b, double by);

}  // namespace hummock::geom

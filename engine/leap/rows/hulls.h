// Convex hulls of plans: do two things stand in each other's way?
#pragma once

#include <vector>

#include "geometry/plan/polygon.h"
#include "geometry/vec.h"

namespace hummock::leap {

// Counter-clockwise, without points on its sides. Fewer than three points: as they are.
geom::Polygon convex_hull(std::vector<geom::Vec2> points);

// Do two convex hulls overlap by more than `by` metres? By separating axes; a hull of fewer than
// three points overlaps nothing.
bool hulls_overlap(const geom::Polygon& a, const geom::Polygon& b, double by);

}  // namespace hummock::leap

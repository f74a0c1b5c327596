// The convex hull of points in the plane, by CGAL with exact predicates.
#pragma once

#include <vector>

#include "geometry/plan/polygon.h"

namespace hummock::geom {

// Counter-clockwise, without corners in line. Fewer than three corners when the points lie on a
// line.
Polygon convex_hull(const std::vector<Vec2>& points);

}  // namespace hummock::geom

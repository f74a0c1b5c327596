// Delaunay triangulation of points in the plane, by CGAL with exact predicates.
#pragma once

#include <span>
#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/vec.h"

namespace hummock::geom {

// Triangles (counter-clockwise) over all points; indices into `points`. Points that coincide are
// represented by one of them. Fewer than three points, or all in one line: empty. The result
// depends on the points' order only where four or more lie on one circle; sort them first for a
// result that does not.
std::vector<Triangle> delaunay(std::span<const Vec2> points);

}  // namespace hummock::geom

// A flat polygon as triangles, by constrained Delaunay triangulation.
#pragma once

#include <array>
#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/plan/polygon.h"

namespace hummock::geom {

// The inside of a simple polygon, corners in line allowed: its own corners are the only vertices
// (same order), triangles counter-clockwise, as near to equal angles as the edges let them be
// (CGAL 5.5, "2D Triangulations": constrained Delaunay). Empty when the polygon crosses itself or
// has no area.
std::vector<Triangle> triangulate(const Polygon& polygon);

// The same as the triangles' corners.
std::vector<std::array<Vec2, 3>> triangles_of(const Polygon& polygon);

}  // namespace hummock::geom

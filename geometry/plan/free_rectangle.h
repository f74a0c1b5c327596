// A large rectangle inside a polygon that keeps clear of obstacles.
#pragma once

#include <vector>

#include "geometry/plan/polygon.h"

namespace hummock::geom {

struct Obstacles {
  std::vector<Polygon> areas;
  std::vector<Vec2> points;  // each the middle of a square of 2 · `half` that is taken
  double half = 0.0;         // m
};

// As large_inscribed_rectangle (geometry/plan/polygon.h), no cell of it in an obstacle. Squares
// about points stay along the rectangle's own axes.
RectangleInside large_free_rectangle(const Polygon& polygon, const Obstacles& obstacles,
                                     double cell, int turns = 36);

}  // namespace hummock::geom

#include "geometry/plan/convex_hull_cgal.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/convex_hull_2.h>

#include <iterator>

namespace hummock::geom {

Polygon convex_hull(const std::vector<Vec2>& points) {
  using Point = CGAL::Exact_predicates_inexact_constructions_kernel::Point_2;
  std::vector<Point> given, hull;
  for (const Vec2 p : points) given.emplace_back(p.x, p.y);
  CGAL::convex_hull_2(given.begin(), given.end(), std::back_inserter(hull));
  Polygon out;
  for (const Point& p : hull) out.push_back({p.x(), p.y()});
  return out;
}

}  // namespace hummock::geom

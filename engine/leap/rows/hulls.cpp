#include "engine/leap/rows/hulls.h"

#include <algorithm>

namespace hummock::leap {

using geom::Polygon;
using geom::Vec2;

// Andrew's monotone chain (1979), counter-clockwise.
Polygon convex_hull(std::vector<Vec2> points) {
  std::sort(points.begin(), points.end(),
            [](Vec2 a, Vec2 b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  Polygon hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const Vec2 p : points) {
      while (hull.size() >= start + 2 &&
             cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= 0.0) {
        hull.pop_back();
      }
      hull.push_back(p);
    }
    if (!hull.empty()) hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

namespace {

// Some side of `a` has all of `b` beyond it, but for `by`.
bool separated(const Polygon& a, const Polygon& b, double by) {
  for (std::size_t k = 0; k < a.size(); ++k) {
    const Vec2 p = a[k];
    const Vec2 out = -geom::left_of(geom::unit(a[(k + 1) % a.size()] - p));
    const bool beyond =
        std::all_of(b.begin(), b.end(), [&](Vec2 q) { return dot(q - p, out) >= -by; });
    if (beyond) return true;
  }
  return false;
}

}  // namespace

bool hulls_overlap(const Polygon& a, const Polygon& b, double by) {
  if (a.size() < 3 || b.size() < 3) return false;
  return !separated(a, b, by) && !separated(b, a, by);
}

}  // namespace hummock::leap

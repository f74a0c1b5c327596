#include "geometry/plan/hull_overlap.h"

#include <algorithm>

namespace hummock::geom {

namespace {

// Some side of `a` has all of `b` beyond it, but for `by`.
bool separated(const Polygon& a, const Polygon& b, double by) {
  for (std::size_t k = 0; k < a.size(); ++k) {
    const Vec2 p = a[k];
    const Vec2 out = -left_of(unit(a[(k + 1) % a.size()] - p));
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

}  // namespace hummock::geom

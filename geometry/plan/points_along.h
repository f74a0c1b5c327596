// Points along a path on plan.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

// Its corners and points between them, no farther apart than `apart` m (> 0). A path of no corner
// has none.
inline std::vector<Vec2> points_along(const std::vector<Vec2>& path, double apart) {
  std::vector<Vec2> points;
  for (const Vec2 to : path) {
    if (points.empty()) {
      points.push_back(to);
      continue;
    }
    const Vec2 from = points.back();
    const int n = std::max(1, static_cast<int>(std::ceil(distance(from, to) / apart)));
    for (int k = 1; k <= n; ++k) points.push_back(lerp(from, to, 1.0 * k / n));
  }
  return points;
}

}  // namespace hummock::geom

// Squares and whole numbers that a box or a line runs through.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

// The middles of squares of 2 · `half` m that cover the box from its lower corner on, column by
// column; the last of a row or column may reach beyond it.
inline std::vector<Vec2> middles_of_squares(const Box2& box, double half) {
  const auto count = [&](double length) {
    return static_cast<int>(std::ceil(length / (2.0 * half)));
  };
  const Vec2 size = box.hi - box.lo;
  std::vector<Vec2> middles;
  for (int i = 0; i < count(size.x); ++i)
    for (int j = 0; j < count(size.y); ++j)
      middles.push_back(box.lo + Vec2{2.0 * i + 1.0, 2.0 * j + 1.0} * half);
  return middles;
}

// Adds the shares 0..1 of the way at which a value that runs from `from` to `to` passes a whole
// number, its ends left out.
inline void add_whole_crossings(double from, double to, std::vector<double>& out) {
  if (from == to) return;
  const int last = static_cast<int>(std::ceil(std::max(from, to))) - 1;
  for (int k = static_cast<int>(std::floor(std::min(from, to))) + 1; k <= last; ++k)
    out.push_back((k - from) / (to - from));
}

}  // namespace hummock::geom

// The nodes of a grid that a box on plan holds, with those it lies between.
#pragma once

#include <algorithm>
#include <cmath>

#include "geometry/plan/grid.h"

namespace hummock::geom {

// Of columns and rows, both ends included; kept within the grid, so never empty where that has
// nodes.
struct NodeRange {
  int i0 = 0, i1 = -1, j0 = 0, j1 = -1;
};

// From the node at or before `lo` to the one at or before `hi`, along x and y.
inline NodeRange nodes_about(const Grid& g, Vec2 lo, Vec2 hi) {
  const auto at = [&](double v, double from, int count) {
    return std::clamp(static_cast<int>(std::floor((v - from) / g.cell)), 0, count - 1);
  };
  return {at(lo.x, g.x0, g.nx), at(hi.x, g.x0, g.nx), at(lo.y, g.y0, g.ny), at(hi.y, g.y0, g.ny)};
}

// visit(index) for each of them, row by row.
template <class Visit>
void each_node(const Grid& g, const NodeRange& range, const Visit& visit) {
  for (int j = range.j0; j <= range.j1; ++j)
    for (int i = range.i0; i <= range.i1; ++i) visit(g.index(i, j));
}

}  // namespace hummock::geom

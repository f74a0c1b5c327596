// A regular grid of nodes, and values on it.
//
// Node (i, j) sits at (x0 + i·cell, y0 + j·cell): row 0 is the southernmost, unlike image rows.
// Values are stored row by row: index = j·nx + i.
#pragma once

#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include "geometry/vec.h"

namespace hummock::geom {

struct Grid {
  double x0 = 0.0;    // m, node (0,0)
  double y0 = 0.0;    // m
  double cell = 1.0;  // m, > 0
  int nx = 0;         // nodes along x, >= 0
  int ny = 0;         // nodes along y
  std::size_t size() const { return static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny); }
  std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(nx) + static_cast<std::size_t>(i);
  }
  Vec2 node(int i, int j) const { return {x0 + i * cell, y0 + j * cell}; }
  bool holds(int i, int j) const { return i >= 0 && j >= 0 && i < nx && j < ny; }
  double x_max() const { return x0 + (nx - 1) * cell; }
  double y_max() const { return y0 + (ny - 1) * cell; }
  friend bool operator==(const Grid&, const Grid&) = default;
};

// A map layer: one number a node, NaN where there is none.
struct Raster {
  Grid grid;
  std::vector<float> values;
  static constexpr float kNone = std::numeric_limits<float>::quiet_NaN();
  explicit Raster(const Grid& g = {}, float fill = kNone) : grid(g), values(g.size(), fill) {}
  float& at(int i, int j) { return values[grid.index(i, j)]; }
  float at(int i, int j) const { return values[grid.index(i, j)]; }
};

}  // namespace hummock::geom

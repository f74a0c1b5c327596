#include "geometry/plan/polygon_cells.h"

#include <algorithm>
#include <cmath>

namespace hummock::geom {
namespace {

constexpr double kNudge = 1e-9;  // of a cell

// Sorted x of the crossings of the line at height y with the polygon's edges.
void crossings(const Polygon& polygon, double y, std::vector<double>& xs) {
  xs.clear();
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 a = polygon[k];
    const Vec2 b = polygon[(k + 1) % polygon.size()];
    if ((a.y > y) == (b.y > y)) continue;
    xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::sort(xs.begin(), xs.end());
}

// Calls fill(first, last) for each run of positions x0 + i·cell, i < n, between pairs of crossings.
template <class Fill>
void for_runs(const std::vector<double>& xs, double x0, double cell, int n, Fill fill) {
  for (std::size_t k = 0; k + 1 < xs.size(); k += 2) {
    const double from = std::ceil((xs[k] - x0) / cell - kNudge);
    const double to = std::ceil((xs[k + 1] - x0) / cell - kNudge) - 1.0;
    const int first = static_cast<int>(std::clamp(from, 0.0, static_cast<double>(n)));
    const int last = static_cast<int>(std::clamp(to, -1.0, n - 1.0));
    if (first <= last) fill(first, last);
  }
}

// Marks every cell the segment touches: row by row, the x range of the part of the segment in it.
void mark_edge(const Grid& grid, Vec2 a, Vec2 b, std::vector<Cover>& cover) {
  const int cells_x = grid.nx - 1;
  const int cells_y = grid.ny - 1;
  if (a.y > b.y) std::swap(a, b);
  const double va = (a.y - grid.y0) / grid.cell;
  const double vb = (b.y - grid.y0) / grid.cell;
  const double j0 = std::max(0.0, std::floor(va - kNudge));
  const double j1 = std::min(cells_y - 1.0, std::floor(vb + kNudge));
  for (int j = static_cast<int>(j0); j <= static_cast<int>(j1); ++j) {
    const double span = vb - va;
    const double t0 = span > 0 ? std::clamp((j - kNudge - va) / span, 0.0, 1.0) : 0.0;
    const double t1 = span > 0 ? std::clamp((j + 1 + kNudge - va) / span, 0.0, 1.0) : 1.0;
    const double u0 = (a.x + t0 * (b.x - a.x) - grid.x0) / grid.cell;
    const double u1 = (a.x + t1 * (b.x - a.x) - grid.x0) / grid.cell;
    const double lo = std::max(0.0, std::floor(std::min(u0, u1) - kNudge));
    const double hi = std::min(cells_x - 1.0, std::floor(std::max(u0, u1) + kNudge));
    for (int i = static_cast<int>(lo); i <= static_cast<int>(hi); ++i)
      cover[static_cast<std::size_t>(j) * cells_x + static_cast<std::size_t>(i)] = Cover::part;
  }
}

}  // namespace

std::vector<std::uint8_t> nodes_inside(const Grid& grid, const Polygon& polygon) {
  std::vector<std::uint8_t> inside(grid.size(), 0);
  std::vector<double> xs;
  for (int j = 0; j < grid.ny; ++j) {
    crossings(polygon, grid.y0 + (j + kNudge) * grid.cell, xs);
    for_runs(xs, grid.x0, grid.cell, grid.nx, [&](int first, int last) {
      const auto row = inside.begin() + static_cast<std::ptrdiff_t>(grid.index(0, j));
      std::fill(row + first, row + last + 1, std::uint8_t{1});
    });
  }
  return inside;
}

std::vector<Cover> cell_cover(const Grid& grid, const Polygon& polygon) {
  const int cells_x = grid.nx - 1;
  const int cells_y = grid.ny - 1;
  std::vector<Cover> cover(static_cast<std::size_t>(cells_x) * static_cast<std::size_t>(cells_y),
                           Cover::none);
  std::vector<double> xs;
  for (int j = 0; j < cells_y; ++j) {
    crossings(polygon, grid.y0 + (j + 0.5) * grid.cell, xs);
    for_runs(xs, grid.x0 + 0.5 * grid.cell, grid.cell, cells_x, [&](int first, int last) {
      const auto row = cover.begin() + static_cast<std::ptrdiff_t>(j) * cells_x;
      std::fill(row + first, row + last + 1, Cover::full);
    });
  }
  for (std::size_t k = 0; k < polygon.size(); ++k)
    mark_edge(grid, polygon[k], polygon[(k + 1) % polygon.size()], cover);
  return cover;
}

}  // namespace hummock::geom

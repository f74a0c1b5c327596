#include "geometry/plan/distance_grid.h"

#include <cmath>

namespace hummock::geom {
namespace {

constexpr double kFar = 1e30;  // cells²: no marked node in this line

// d[k] = min over q of (k − q)² + f[q], in place; `hull` and `from` are scratch.
void envelope(std::vector<double>& f, std::vector<double>& out, std::vector<int>& hull,
              std::vector<double>& from) {
  const int n = static_cast<int>(f.size());
  const auto at = [&](int k) -> double { return f[static_cast<std::size_t>(k)]; };
  int top = -1;
  for (int q = 0; q < n; ++q) {
    if (at(q) >= kFar) continue;
    double s = -kFar;
    while (top >= 0) {
      const int p = hull[static_cast<std::size_t>(top)];
      s = ((at(q) + static_cast<double>(q) * q) - (at(p) + static_cast<double>(p) * p)) /
          (2.0 * (q - p));
      if (s > from[static_cast<std::size_t>(top)]) break;
      --top;
      s = -kFar;
    }
    ++top;
    hull[static_cast<std::size_t>(top)] = q;
    from[static_cast<std::size_t>(top)] = s;
  }
  int piece = 0;
  for (int k = 0; k < n; ++k) {
    if (top < 0) {
      out[static_cast<std::size_t>(k)] = kFar;
      continue;
    }
    while (piece < top && from[static_cast<std::size_t>(piece) + 1] < k) ++piece;
    const int q = hull[static_cast<std::size_t>(piece)];
    out[static_cast<std::size_t>(k)] = static_cast<double>(k - q) * (k - q) + at(q);
  }
}

struct Line {
  std::vector<double> in, out, from;
  std::vector<int> hull;
  explicit Line(int n)
      : in(static_cast<std::size_t>(n)),
        out(static_cast<std::size_t>(n)),
        from(static_cast<std::size_t>(n)),
        hull(static_cast<std::size_t>(n)) {}
  void run() { envelope(in, out, hull, from); }
};

// The grid with a ring of one node round it.
std::vector<double> seeds(const Grid& grid, const std::vector<std::uint8_t>& marked,
                          Beyond beyond) {
  const int nx = grid.nx + 2;
  std::vector<double> d(static_cast<std::size_t>(nx) * static_cast<std::size_t>(grid.ny + 2),
                        beyond == Beyond::marked ? 0.0 : kFar);
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i)
      d[static_cast<std::size_t>(j + 1) * static_cast<std::size_t>(nx) +
        static_cast<std::size_t>(i + 1)] = marked[grid.index(i, j)] != 0 ? 0.0 : kFar;
  return d;
}

}  // namespace

std::vector<double> distance_to_marked(const Grid& grid, const std::vector<std::uint8_t>& marked,
                                       Beyond beyond) {
  const std::size_t nx = static_cast<std::size_t>(grid.nx) + 2;
  const std::size_t ny = static_cast<std::size_t>(grid.ny) + 2;
  std::vector<double> d = seeds(grid, marked, beyond);
  Line up(grid.ny + 2);
  for (std::size_t i = 0; i < nx; ++i) {
    for (std::size_t j = 0; j < ny; ++j) up.in[j] = d[j * nx + i];
    up.run();
    for (std::size_t j = 0; j < ny; ++j) d[j * nx + i] = up.out[j];
  }
  Line across(grid.nx + 2);
  std::vector<double> out(grid.size());
  for (std::size_t j = 1; j + 1 < ny; ++j) {
    for (std::size_t i = 0; i < nx; ++i) across.in[i] = d[j * nx + i];
    across.run();
    for (std::size_t i = 1; i + 1 < nx; ++i) {
      const double squared = across.out[i];
      out[(j - 1) * (nx - 2) + (i - 1)] = squared >= kFar ? std::numeric_limits<double>::infinity()
                                                          : grid.cell * std::sqrt(squared);
    }
  }
  return out;
}

}  // namespace hummock::geom

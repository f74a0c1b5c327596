#include "geometry/mesh/prism_volume.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace hummock::geom {

namespace {

void require_same_grid(const Heightfield& a, const Heightfield& b) {
  if (!(a.grid == b.grid)) throw std::invalid_argument("prism_sums: the grounds differ in grid");
}

// Cells of the grid that touch the polygon's box, so that a small polygon costs little.
Heightfield difference_around(const Heightfield& upper, const Heightfield& lower,
                              const Polygon& inside) {
  const Grid& g = upper.grid;
  const Box2 box = bounds(inside);
  const auto first = [&](double v, double from) {
    return std::max(0, static_cast<int>(std::floor((v - from) / g.cell)) - 1);
  };
  const auto last = [&](double v, double from, int n) {
    return std::min(n - 1, static_cast<int>(std::ceil((v - from) / g.cell)) + 1);
  };
  const int i0 = std::min(first(box.lo.x, g.x0), g.nx - 2);
  const int j0 = std::min(first(box.lo.y, g.y0), g.ny - 2);
  const int i1 = std::max(last(box.hi.x, g.x0, g.nx), i0 + 1);
  const int j1 = std::max(last(box.hi.y, g.y0, g.ny), j0 + 1);
  Heightfield d;
  d.grid = {g.x0 + i0 * g.cell, g.y0 + j0 * g.cell, g.cell, i1 - i0 + 1, j1 - j0 + 1};
  d.z.resize(d.grid.size());
  for (int j = j0; j <= j1; ++j)
    for (int i = i0; i <= i1; ++i) d.at(i - i0, j - j0) = upper.at(i, j) - lower.at(i, j);
  return d;
}

}  // namespace

PrismSums& PrismSums::operator+=(const PrismSums& other) {
  above_m3 += other.above_m3;
  below_m3 += other.below_m3;
  above_area_m2 += other.above_area_m2;
  below_area_m2 += other.below_area_m2;
  return *this;
}

PrismSums prism(double plan_area, double d0, double d1, double d2) {
  PrismSums s;
  const double lo = std::min({d0, d1, d2});
  const double hi = std::max({d0, d1, d2});
  if (lo == 0.0 && hi == 0.0) return s;
  const double whole = plan_area * (d0 + d1 + d2) / 3.0;
  if (lo >= 0.0) {
    s.above_m3 = whole;
    s.above_area_m2 = plan_area;
    return s;
  }
  if (hi <= 0.0) {
    s.below_m3 = -whole;
    s.below_area_m2 = plan_area;
    return s;
  }
  // The corner alone on its side cuts off a small triangle: similar to the whole along two edges.
  const double mid = std::max(std::min(d0, d1), std::min(std::max(d0, d1), d2));
  const bool lone_is_high = mid <= 0.0;
  const double lone = lone_is_high ? hi : lo;
  const double share = lone / (lone - mid) * (lone / (lone - (lone_is_high ? lo : hi)));
  const double tip_area = plan_area * share;
  const double tip = tip_area * std::abs(lone) / 3.0;
  if (lone_is_high) {
    s = {tip, std::max(0.0, tip - whole), tip_area, plan_area - tip_area};
  } else {
    s = {std::max(0.0, whole + tip), tip, plan_area - tip_area, tip_area};
  }
  return s;
}

PrismSums prism_sums(const Heightfield& upper, const Heightfield& lower) {
  require_same_grid(upper, lower);
  const Grid& g = upper.grid;
  const double half = 0.5 * g.cell * g.cell;
  PrismSums total;
  for (int j = 0; j + 1 < g.ny; ++j) {
    PrismSums row;
    for (int i = 0; i + 1 < g.nx; ++i) {
      const double a = upper.at(i, j) - lower.at(i, j);
      const double b = upper.at(i + 1, j) - lower.at(i + 1, j);
      const double c = upper.at(i + 1, j + 1) - lower.at(i + 1, j + 1);
      const double d = upper.at(i, j + 1) - lower.at(i, j + 1);
      if (a == 0.0 && b == 0.0 && c == 0.0 && d == 0.0) continue;
      row += prism(half, a, b, d);
      row += prism(half, c, d, b);
    }
    total += row;
  }
  return total;
}

PrismSums prism_sums(const Heightfield& upper, const Heightfield& lower, const Polygon& inside) {
  require_same_grid(upper, lower);
  return prism_sums(ground_mesh(difference_around(upper, lower, inside), inside), 0.0);
}

PrismSums prism_sums(const Mesh& mesh, double level) {
  PrismSums total;
  for (const Triangle& t : mesh.triangles) {
    const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
    const double area = 0.5 * std::abs(cross(xy(b) - xy(a), xy(c) - xy(a)));
    total += prism(area, a.z - level, b.z - level, c.z - level);
  }
  return total;
}

}  // namespace hummock::geom

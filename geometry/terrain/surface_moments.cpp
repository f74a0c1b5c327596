#include "geometry/terrain/surface_moments.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>

#include "geometry/terrain/surface_pieces.h"

namespace hummock::geom {
namespace {

constexpr int kTileRows = 32;

// Sums over fixed tiles of rows, added in order: the same bits for any number of threads.
template <class Sums, class Visit>
Sums sum_over_pieces(const Heightfield& ground, const Polygon& inside,
                     const std::vector<Cover>& cover, Visit visit) {
  const int cells = ground.grid.ny - 1;
  const int tiles = (cells + kTileRows - 1) / kTileRows;
  std::vector<Sums> parts(static_cast<std::size_t>(tiles));
  tbb::parallel_for(0, tiles, [&](int k) {
    Sums& part = parts[static_cast<std::size_t>(k)];
    for_pieces(ground, inside, cover, k * kTileRows, std::min((k + 1) * kTileRows, cells),
               [&](const Piece& piece) { visit(part, piece); });
  });
  Sums total{};
  for (const Sums& part : parts)
    for (std::size_t k = 0; k < total.size(); ++k) total[k] += part[k];
  return total;
}

using Three = std::array<double, 3>;

double sum(const Three& v) {
  return v[0] + v[1] + v[2];
}

// ∫ f g over a triangle of area 1.
double mean_product(const Three& f, const Three& g) {
  return (sum(f) * sum(g) + f[0] * g[0] + f[1] * g[1] + f[2] * g[2]) / 12.0;
}

// ∫ |z| over a triangle of area 1.
double mean_abs(Three z) {
  std::sort(z.begin(), z.end());
  const double whole = sum(z) / 3.0;
  if (z[0] >= 0.0 || z[2] <= 0.0) return std::abs(whole);
  // One corner has a sign of its own: the part it cuts off is a triangle with that corner.
  const double lone = z[1] >= 0.0 ? z[0] : z[2];
  const double p = z[1];
  const double q = z[1] >= 0.0 ? z[2] : z[0];
  const double cut = lone / (lone - p) * lone / (lone - q) * lone / 3.0;
  return std::abs(whole - cut) + std::abs(cut);
}

// 1, x, y, xx, xy, yy, z, xz, yz.
using FitSums = std::array<double, 9>;

void add_fit(FitSums& s, const Piece& t, Vec2 centre, double level) {
  const Three x{t.p[0].x - centre.x, t.p[1].x - centre.x, t.p[2].x - centre.x};
  const Three y{t.p[0].y - centre.y, t.p[1].y - centre.y, t.p[2].y - centre.y};
  const Three z{t.z[0] - level, t.z[1] - level, t.z[2] - level};
  s[0] += t.area;
  s[1] += t.area * sum(x) / 3.0;
  s[2] += t.area * sum(y) / 3.0;
  s[3] += t.area * mean_product(x, x);
  s[4] += t.area * mean_product(x, y);
  s[5] += t.area * mean_product(y, y);
  s[6] += t.area * sum(z) / 3.0;
  s[7] += t.area * mean_product(x, z);
  s[8] += t.area * mean_product(y, z);
}

// The normal equations about the area's own centroid, where they fall apart into 1 and 2 × 2.
Plane fit(const FitSums& s, Vec2 centre, double level) {
  const double n = s[0];
  const Vec2 m{s[1] / n, s[2] / n};
  const double xx = s[3] / n - m.x * m.x;
  const double xy = s[4] / n - m.x * m.y;
  const double yy = s[5] / n - m.y * m.y;
  const double z = s[6] / n;
  const double xz = s[7] / n - m.x * z;
  const double yz = s[8] / n - m.y * z;
  const double det = xx * yy - xy * xy;
  Plane plane;
  plane.centre = centre + m;
  plane.at_centre = level + z;
  plane.gx = (xz * yy - yz * xy) / det;
  plane.gy = (yz * xx - xz * xy) / det;
  return plane;
}

// |d|, d², d³, d⁴, |∇d|², excess area.
using HeightSums = std::array<double, 6>;

void add_heights(HeightSums& s, const Piece& t, const Plane& plane) {
  const double a = t.z[0] - plane.at(t.p[0]);
  const double b = t.z[1] - plane.at(t.p[1]);
  const double c = t.z[2] - plane.at(t.p[2]);
  // Complete homogeneous symmetric polynomials, two corners first: h_n(a,b,c) = Σ h_k(a,b) c^(n−k).
  const double h1 = a + b;
  const double h2 = a * a + a * b + b * b;
  const double h3 = (a + b) * (a * a + b * b);
  const double h4 = a * a * a * a + a * b * h2 + b * b * b * b;
  const double c2 = c * c;
  s[0] += t.area * mean_abs({a, b, c});
  s[1] += t.area * (h2 + h1 * c + c2) / 6.0;
  s[2] += t.area * (h3 + h2 * c + h1 * c2 + c2 * c) / 10.0;
  s[3] += t.area * (h4 + h3 * c + h2 * c2 + h1 * c2 * c + c2 * c2) / 15.0;
  const Vec2 g = t.gradient - Vec2{plane.gx, plane.gy};
  const double g2 = dot(g, g);
  s[4] += t.area * g2;
  s[5] += t.area * g2 / (1.0 + std::sqrt(1.0 + g2));
}

// Extremes of a surface linear between nodes, polygon edges and their crossings lie on those.
void find_extremes(const Heightfield& ground, const Polygon& inside, SurfaceMoments& out) {
  double d_max = -1e300, d_min = 1e300, z_max = -1e300, z_min = 1e300;
  const auto see = [&](Vec2 p, double z) {
    const double d = z - out.plane.at(p);
    d_max = std::max(d_max, d);
    d_min = std::min(d_min, d);
    z_max = std::max(z_max, z);
    z_min = std::min(z_min, z);
  };
  const std::vector<std::uint8_t> mask = nodes_inside(ground.grid, inside);
  for (int j = 0; j < ground.grid.ny; ++j)
    for (int i = 0; i < ground.grid.nx; ++i)
      if (mask[ground.grid.index(i, j)] != 0) see(ground.grid.node(i, j), ground.at(i, j));
  for (std::size_t k = 0; k < inside.size(); ++k) {
    const Vec2 a = inside[k];
    const Vec2 b = inside[(k + 1) % inside.size()];
    for (const double t : ground_breaks(ground, a, b)) {
      const Vec2 p = lerp(a, b, t);
      see(p, height_at(ground, p));
    }
  }
  out.highest = d_max;
  out.lowest = d_min;
  out.z_max = z_max;
  out.z_min = z_min;
}

}  // namespace

SurfaceMoments surface_moments(const Heightfield& ground, const Polygon& inside) {
  Polygon outline = inside;
  if (signed_area(outline) < 0) std::reverse(outline.begin(), outline.end());
  const std::vector<Cover> cover = cell_cover(ground.grid, outline);
  const Box2 box = bounds(outline);
  const Vec2 centre = (box.lo + box.hi) * 0.5;
  const double level = height_at(ground, centre);

  SurfaceMoments out;
  const auto fits = sum_over_pieces<FitSums>(
      ground, outline, cover, [&](FitSums& s, const Piece& t) { add_fit(s, t, centre, level); });
  out.area_m2 = fits[0];
  out.plane = fit(fits, centre, level);
  const auto sums = sum_over_pieces<HeightSums>(
      ground, outline, cover, [&](HeightSums& s, const Piece& t) { add_heights(s, t, out.plane); });
  out.mean_abs = sums[0] / out.area_m2;
  out.mean_square = sums[1] / out.area_m2;
  out.mean_cube = sums[2] / out.area_m2;
  out.mean_fourth = sums[3] / out.area_m2;
  out.mean_gradient_square = sums[4] / out.area_m2;
  out.mean_excess_area = sums[5] / out.area_m2;
  find_extremes(ground, outline, out);
  return out;
}

}  // namespace hummock::geom

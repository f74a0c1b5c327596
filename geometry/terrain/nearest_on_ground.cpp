#include "geometry/terrain/nearest_on_ground.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace hummock::geom {

namespace {

// A triangle of the ground cut at a line: at most four corners, counter-clockwise on plan.
struct Facet {
  std::array<Vec3, 4> corner;
  std::size_t count = 0;
  void add(Vec3 p) { corner[count++] = p; }
};

Facet cut_at(const std::array<Vec3, 3>& triangle, const GroundSide& side) {
  Facet facet;
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec3 a = triangle[k], b = triangle[(k + 1) % 3];
    const double da = dot(side.towards, xy(a) - side.at);
    const double db = dot(side.towards, xy(b) - side.at);
    if (da >= 0.0) facet.add(a);
    if ((da >= 0.0) != (db >= 0.0)) facet.add(lerp(a, b, da / (da - db)));
  }
  return facet;
}

// The search so far.
struct Nearest {
  Vec3 from;
  double distance2 = 0.0;  // m²
  std::optional<Vec3> at;
  void offer(Vec3 q) {
    const Vec3 d = q - from;
    if (dot(d, d) >= distance2) return;
    distance2 = dot(d, d);
    at = q;
  }
};

// The facet's plane when the point's foot on it is in the facet, else its edges.
void offer_facet(const Facet& facet, Nearest& nearest) {
  if (facet.count < 3) return;
  const Vec3 normal = cross(facet.corner[1] - facet.corner[0], facet.corner[2] - facet.corner[0]);
  const double square = dot(normal, normal);
  if (square <= 0.0) return;
  const Vec3 foot = nearest.from - normal * (dot(normal, nearest.from - facet.corner[0]) / square);
  bool within = true;
  for (std::size_t k = 0; k < facet.count; ++k) {
    const Vec3 a = facet.corner[k], e = facet.corner[(k + 1) % facet.count] - a;
    within = within && cross(xy(e), xy(foot - a)) >= 0.0;
    const double t = dot(e, e) > 0.0 ? dot(nearest.from - a, e) / dot(e, e) : 0.0;
    nearest.offer(a + e * std::clamp(t, 0.0, 1.0));
  }
  if (within) nearest.offer(foot);
}

// No place of the cell is nearer than this, squared.
double least_distance2(const Heightfield& ground, int i, int j, Vec3 p) {
  const Vec2 lo = ground.grid.node(i, j);
  const auto [low, high] = std::minmax(
      {ground.at(i, j), ground.at(i + 1, j), ground.at(i, j + 1), ground.at(i + 1, j + 1)});
  const auto gap = [](double v, double from, double to) {
    return std::max({0.0, from - v, v - to});
  };
  const double dx = gap(p.x, lo.x, lo.x + ground.grid.cell);
  const double dy = gap(p.y, lo.y, lo.y + ground.grid.cell);
  const double dz = gap(p.z, low, high);
  return dx * dx + dy * dy + dz * dz;
}

void offer_cell(const Heightfield& ground, int i, int j, const GroundSide& side, Nearest& nearest) {
  if (least_distance2(ground, i, j, nearest.from) >= nearest.distance2) return;
  const auto corner = [&](int u, int v) {
    return at_height(ground.grid.node(u, v), ground.at(u, v));
  };
  const Vec3 a = corner(i, j), b = corner(i + 1, j), c = corner(i + 1, j + 1), d = corner(i, j + 1);
  offer_facet(cut_at({a, b, d}, side), nearest);
  offer_facet(cut_at({c, d, b}, side), nearest);
}

int node_below(double v, int nodes) {
  return static_cast<int>(std::clamp(std::floor(v), 0.0, static_cast<double>(nodes - 2)));
}

}  // namespace

std::optional<Vec3> nearest_on_ground(const Heightfield& ground, Vec3 p, const GroundSide& side,
                                      double within) {
  const Grid& g = ground.grid;
  Nearest nearest{p, within * within, std::nullopt};
  const int own_i = node_below((p.x - g.x0) / g.cell, g.nx);
  const int own_j = node_below((p.y - g.y0) / g.cell, g.ny);
  offer_cell(ground, own_i, own_j, side, nearest);
  const double reach = std::sqrt(nearest.distance2);
  const int to_i = node_below((p.x + reach - g.x0) / g.cell, g.nx);
  const int to_j = node_below((p.y + reach - g.y0) / g.cell, g.ny);
  for (int j = node_below((p.y - reach - g.y0) / g.cell, g.ny); j <= to_j; ++j) {
    for (int i = node_below((p.x - reach - g.x0) / g.cell, g.nx); i <= to_i; ++i) {
      offer_cell(ground, i, j, side, nearest);
    }
  }
  return nearest.at;
}

}  // namespace hummock::geom

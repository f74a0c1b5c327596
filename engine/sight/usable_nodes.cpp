#include "engine/sight/usable_nodes.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/plan/polygon_cells.h"

namespace hummock::sight {
namespace {

constexpr double kLift = 0.002;  // m above the ground where rays start
constexpr float kFarUp = 1e4F;   // m

void clear_polygon(const geom::Grid& g, const Polygon& outline, std::vector<std::uint8_t>& mask) {
  const std::vector<std::uint8_t> in = geom::nodes_inside(g, outline);
  for (std::size_t n = 0; n < mask.size(); ++n)
    if (in[n] != 0) mask[n] = 0;
}

Polygon footprint(const Den& den) {
  const Vec2 ahead = Vec2{std::cos(den.turn), std::sin(den.turn)} * (0.5 * den.size.x);
  const Vec2 aside = geom::left_of(geom::unit(ahead)) * (0.5 * den.size.y);
  return {den.at - ahead - aside, den.at + ahead - aside, den.at + ahead + aside,
          den.at - ahead + aside};
}

void clear_deep_water(const Model& model, std::vector<std::uint8_t>& mask) {
  for (const Water& w : model.site.waters) {
    if (!w.level) continue;
    const std::vector<std::uint8_t> in = geom::nodes_inside(model.ground.grid, w.outline);
    for (std::size_t n = 0; n < mask.size(); ++n)
      if (in[n] != 0 && *w.level - model.ground.z[n] > model.site.species.wade_depth.value)
        mask[n] = 0;
  }
}

// The node's slope: of the plane through its neighbours, one-sided at the grid's rim.
double slope(const geom::Heightfield& h, int i, int j) {
  const geom::Grid& g = h.grid;
  const int i0 = std::max(0, i - 1), i1 = std::min(g.nx - 1, i + 1);
  const int j0 = std::max(0, j - 1), j1 = std::min(g.ny - 1, j + 1);
  return std::atan(std::hypot((h.at(i1, j) - h.at(i0, j)) / ((i1 - i0) * g.cell),
                              (h.at(i, j1) - h.at(i, j0)) / ((j1 - j0) * g.cell)));
}

// What stands over a node: too low, or the node is inside it.
bool taken_up(const Model& model, Vec3 foot) {
  const geom::Hit hit = model.body_scene->first_hit({foot, {0, 0, 1}, 0.0, kFarUp});
  if (!hit) return false;
  if (hit.t + kLift < model.site.species.body.value[2]) return true;
  const bool solid = hit.id != kGroundId && model.parts[static_cast<std::size_t>(hit.id)].closed;
  return solid && hit.normal.z > 0.0;  // leaving it upwards
}

void clear_covered_row(const Model& model, int j, int stride, std::vector<std::uint8_t>& mask) {
  const geom::Grid& g = model.ground.grid;
  std::array<std::size_t, 16> node{};
  geom::RayPacket16 rays;
  int count = 0;
  const auto flush = [&] {
    if (count == 0) return;
    rays.valid = (1U << static_cast<unsigned>(count)) - 1U;
    const std::uint32_t under = model.body_scene->occluded(rays);
    for (int k = 0; k < count; ++k) {
      if ((under >> static_cast<unsigned>(k) & 1U) == 0) continue;
      const Vec3 foot{rays.ox[k], rays.oy[k], rays.oz[k]};
      if (taken_up(model, foot)) mask[node[static_cast<std::size_t>(k)]] = 0;
    }
    count = 0;
  };
  for (int i = 0; i < g.nx; i += stride) {
    const std::size_t n = g.index(i, j);
    if (mask[n] == 0) continue;
    const Vec2 p = g.node(i, j);
    rays.ox[count] = static_cast<float>(p.x);
    rays.oy[count] = static_cast<float>(p.y);
    rays.oz[count] = static_cast<float>(model.ground.z[n] + kLift);
    rays.dx[count] = rays.dy[count] = 0.0F;
    rays.dz[count] = 1.0F;
    rays.near[count] = 0.0F;
    rays.far[count] = kFarUp;
    node[static_cast<std::size_t>(count)] = n;
    if (++count == 16) flush();
  }
  flush();
}

constexpr double kOnLine = 1e-6;  // m

void note_those_on_the_line(const Model& model, std::vector<std::uint8_t>& mask) {
  const geom::Grid& g = model.ground.grid;
  const std::vector<geom::Cover> cover = geom::cell_cover(g, model.outline);
  for (int j = 0; j + 1 < g.ny; ++j)
    for (int i = 0; i + 1 < g.nx; ++i) {
      const std::size_t cell = static_cast<std::size_t>(j) * static_cast<std::size_t>(g.nx - 1) +
                               static_cast<std::size_t>(i);
      if (cover[cell] != geom::Cover::part) continue;
      for (const std::size_t n :
           {g.index(i, j), g.index(i + 1, j), g.index(i, j + 1), g.index(i + 1, j + 1)}) {
        const Vec2 p = g.node(static_cast<int>(n % static_cast<std::size_t>(g.nx)),
                              static_cast<int>(n / static_cast<std::size_t>(g.nx)));
        if (mask[n] == kUsable && geom::distance_to_edges(model.outline, p) < kOnLine)
          mask[n] = kOnTheLine;
      }
    }
}

}  // namespace

Vec2 target_place(const Model& model, Vec2 node, std::uint8_t use) {
  if (use != kOnTheLine) return node;
  constexpr double kInside = 0.01;  // m
  Vec2 in{};
  for (std::size_t k = 0; k < model.outline.size(); ++k) {
    const Vec2 a = model.outline[k], b = model.outline[(k + 1) % model.outline.size()];
    if (geom::distance_to_segment(node, a, b) < kOnLine)
      in = in + geom::left_of(geom::unit(b - a));  // the outline runs counter-clockwise
  }
  return node + in * kInside;
}

std::vector<std::uint8_t> usable_nodes(const Model& model, int stride) {
  const geom::Grid& g = model.ground.grid;
  std::vector<std::uint8_t> mask = geom::nodes_inside(g, model.outline);
  for (const Den& den : model.site.dens) clear_polygon(g, footprint(den), mask);
  for (const House& house : model.site.houses) clear_polygon(g, house.outline, mask);
  clear_deep_water(model, mask);
  const double steepest = model.site.species.stand_slope.value + 1e-9;
  tbb::parallel_for(0, g.ny, [&](int j) {
    for (int i = 0; i < g.nx; ++i) {
      std::uint8_t& m = mask[g.index(i, j)];
      if (m == 0) continue;
      if (i % stride != 0 || j % stride != 0 || slope(model.ground, i, j) > steepest) m = 0;
    }
    if (model.body_scene && j % stride == 0) clear_covered_row(model, j, stride, mask);
  });
  note_those_on_the_line(model, mask);
  return mask;
}

}  // namespace hummock::sight

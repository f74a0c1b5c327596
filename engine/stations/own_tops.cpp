#include "engine/stations/own_tops.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/usable/body_patches.h"
#include "engine/usable/climb_ways.h"
#include "engine/usable/hops.h"
#include "engine/usable/number_parts.h"
#include "engine/usable/thing_tops.h"

namespace hummock::stations {
namespace {

using usable::kNone;

struct Tops {
  std::vector<double> height;  // NaN without one
  std::vector<int> part;       // from 1 on; kNone without one
  int parts = 1;               // the ground is the first
};

Tops tops_of(const Model& model, const usable::UsableGround& ground, const geom::Grid& grid) {
  Tops out{usable::thing_tops(model, ground, grid), std::vector<int>(grid.size(), kNone)};
  std::vector<std::uint8_t> is_top(grid.size());
  for (std::size_t n = 0; n < grid.size(); ++n) is_top[n] = std::isnan(out.height[n]) ? 0 : 1;
  const double rise = ground.steepest() * grid.cell;
  out.parts = usable::number_parts(grid, is_top, 1, out.part, [&](std::size_t a, std::size_t b) {
    return std::abs(out.height[a] - out.height[b]) <= rise;
  });
  return out;
}

// Nodes with a neighbour that is not of their part.
void add_rim(const geom::Grid& grid, const std::vector<int>& part, const std::vector<double>& z,
             std::vector<usable::RimSpot>& rim) {
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      const std::size_t n = grid.index(i, j);
      if (part[n] == kNone) continue;
      const bool at_rim =
          std::any_of(usable::kSteps.begin(), usable::kSteps.end(), [&](const auto& step) {
            const int a = i + step.first, b = j + step.second;
            return !grid.holds(a, b) || part[grid.index(a, b)] != part[n];
          });
      if (at_rim) rim.push_back({geom::at_height(grid.node(i, j), z[n]), part[n], false});
    }
}

std::vector<std::uint8_t> come_to(const Model& model, const usable::Nodes& nodes,
                                  const Tops& tops) {
  const geom::Grid& g = nodes.grid;
  std::vector<int> on_ground(g.size(), kNone);
  std::vector<double> z(g.size());
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t n = g.index(i, j);
      on_ground[n] = nodes.live[n] != 0 ? 0 : kNone;
      z[n] = geom::height_at(model.ground, g.node(i, j));
    }
  std::vector<usable::RimSpot> rim;
  add_rim(g, on_ground, z, rim);
  add_rim(g, tops.part, tops.height, rim);
  const usable::Leaper leaper = usable::leaper_of(model.site.species);
  const auto climbed = usable::climbed_between(model, leaper, rim, g.cell);
  return usable::parts_come_to(model, leaper, rim, climbed, tops.parts, 0);
}

// 1 for the nodes of one part that hold the body. Worked out on the part's own box, ringed by
// nodes that are none of it.
void keep_patches(const geom::Grid& grid, const Body& body, int part, Tops& tops) {
  int i0 = grid.nx, i1 = -1, j0 = grid.ny, j1 = -1;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      if (tops.part[grid.index(i, j)] != part) continue;
      i0 = std::min(i0, i), i1 = std::max(i1, i), j0 = std::min(j0, j), j1 = std::max(j1, j);
    }
  if (i1 < i0) return;
  geom::Grid own{grid.x0 + (i0 - 1) * grid.cell, grid.y0 + (j0 - 1) * grid.cell, grid.cell,
                 i1 - i0 + 3, j1 - j0 + 3};
  std::vector<std::uint8_t> standing(own.size(), 0);
  for (int j = j0; j <= j1; ++j)
    for (int i = i0; i <= i1; ++i)
      standing[own.index(i - i0 + 1, j - j0 + 1)] = tops.part[grid.index(i, j)] == part ? 1 : 0;
  const auto fits = usable::body_patches(own, standing, body.length, body.width);
  for (int j = j0; j <= j1; ++j)
    for (int i = i0; i <= i1; ++i) {
      const std::size_t n = grid.index(i, j);
      if (tops.part[n] == part && fits[own.index(i - i0 + 1, j - j0 + 1)] == 0)
        tops.height[n] = std::numeric_limits<double>::quiet_NaN();
    }
}

}  // namespace

std::vector<double> own_tops(const Model& model, const usable::UsableGround& ground,
                             const usable::Nodes& nodes) {
  Tops tops = tops_of(model, ground, nodes.grid);
  if (tops.parts == 1) return tops.height;
  const std::vector<std::uint8_t> come = come_to(model, nodes, tops);
  for (int part = 1; part < tops.parts; ++part)
    if (come[static_cast<std::size_t>(part)] != 0)
      keep_patches(nodes.grid, ground.body(), part, tops);
  for (std::size_t n = 0; n < tops.part.size(); ++n)
    if (tops.part[n] != kNone && come[static_cast<std::size_t>(tops.part[n])] == 0)
      tops.height[n] = std::numeric_limits<double>::quiet_NaN();
  return tops.height;
}

}  // namespace hummock::stations

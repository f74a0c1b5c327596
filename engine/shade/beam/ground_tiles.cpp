#include "engine/shade/beam/ground_tiles.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/usable/usable_ground.h"

namespace hummock::shade {
namespace {

void fill_node(Tile& tile, std::size_t k, Vec3 at, Vec2 gradient, const Rises& rises) {
  if (tile.count == 0) tile.ref = at;
  tile.x[k] = static_cast<float>(at.x - tile.ref.x);
  tile.y[k] = static_cast<float>(at.y - tile.ref.y);
  tile.z[k] = static_cast<float>(at.z - tile.ref.z);
  tile.gx[k] = static_cast<float>(gradient.x);
  tile.gy[k] = static_cast<float>(gradient.y);
  for (std::size_t w = 0; w < kWays; ++w) tile.rise[w][k] = rises[w];
  tile.inside[k] = 1;
  tile.box.add(at);
  ++tile.count;
}

// What gradient_at gives at the ground's own node (i, j), without looking for it.
Vec2 node_gradient(const geom::Heightfield& ground, int i, int j) {
  const geom::Grid& g = ground.grid;
  const int i0 = std::max(0, i - 1), i1 = std::min(g.nx - 1, i + 1);
  const int j0 = std::max(0, j - 1), j1 = std::min(g.ny - 1, j + 1);
  return {(ground.at(i1, j) - ground.at(i0, j)) / ((i1 - i0) * g.cell),
          (ground.at(i, j1) - ground.at(i, j0)) / ((j1 - j0) * g.cell)};
}

constexpr std::array<std::pair<int, int>, kWays> kSteps{
    {{1, 0}, {0, 1}, {-1, 1}, {-1, 0}, {0, -1}, {1, -1}}};

Way back(Way way) {
  return static_cast<Way>((way + 3) % kWays);
}

// `rise(way)`: NaN where there is no ground.
template <class Rise>
Rises closed_rises(const Rise& rise) {
  Rises out;
  for (int w = 0; w < kWays; ++w) {
    const auto way = static_cast<Way>(w);
    const double r = rise(way);
    out[static_cast<std::size_t>(w)] = static_cast<float>(std::isnan(r) ? -rise(back(way)) : r);
  }
  // At two corners of the ground both ends of the diagonal are missing.
  if (std::isnan(out[kNorthWest])) out[kNorthWest] = out[kNorth] + out[kWest];
  if (std::isnan(out[kSouthEast])) out[kSouthEast] = out[kSouth] + out[kEast];
  return out;
}

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// What rises_at gives at the ground's own node (i, j), without looking for it.
Rises node_rises(const geom::Heightfield& ground, int i, int j) {
  return closed_rises([&](Way way) {
    const auto [di, dj] = kSteps[static_cast<std::size_t>(way)];
    if (!ground.grid.holds(i + di, j + dj)) return kNone;
    return (ground.at(i + di, j + dj) - ground.at(i, j)) / ground.grid.cell;
  });
}

// Range of the gradients of the six triangles at each node, from the rises along their sides.
void set_gradient_range(Tile& tile) {
  tile.gx0 = tile.gy0 = 1e30F;
  tile.gx1 = tile.gy1 = -1e30F;
  const auto& r = tile.rise;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    for (const float g : {r[kEast][k], -r[kWest][k], r[kNorth][k] - r[kNorthWest][k],
                          r[kSouthEast][k] - r[kSouth][k]}) {
      tile.gx0 = std::min(tile.gx0, g);
      tile.gx1 = std::max(tile.gx1, g);
    }
    for (const float g : {r[kNorth][k], -r[kSouth][k], r[kNorthWest][k] - r[kWest][k],
                          r[kEast][k] - r[kSouthEast][k]}) {
      tile.gy0 = std::min(tile.gy0, g);
      tile.gy1 = std::max(tile.gy1, g);
    }
  }
}

// Outside nodes stand where an inside one does, so that they widen no range.
void close_gaps(Tile& tile) {
  std::size_t first = 0;
  while (first < kTileNodes && tile.inside[first] == 0) ++first;
  std::size_t last = first;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] != 0) {
      last = k;
      continue;
    }
    for (auto* values : {&tile.x, &tile.y, &tile.z, &tile.gx, &tile.gy}) {
      (*values)[k] = (*values)[last];
    }
    for (auto& rises : tile.rise) rises[k] = rises[last];
  }
  set_gradient_range(tile);
}

enum class Cover { all, some, none };

// How the outline covers a tile's square, by the distance of its edges from the middle.
Cover cover(const geom::Polygon& outline, Vec2 lo, double side) {
  const Vec2 middle = lo + Vec2{side / 2, side / 2};
  if (distance_to_edges(outline, middle) <= side * 0.7072) return Cover::some;
  return contains(outline, middle) ? Cover::all : Cover::none;
}

// Without nodes inside it stays empty. A tile is large: it is filled where it stands.
void fill_tile(const Model& model, const usable::UsableGround& usable, const geom::Grid& grid,
               int i0, int j0, Tile& tile) {
  const geom::Heightfield& ground = model.ground;
  tile.i0 = i0;
  tile.j0 = j0;
  const Cover covered = cover(model.outline, grid.node(i0, j0), kTile * grid.cell);
  if (covered == Cover::none) return;
  const bool own = grid == ground.grid;
  for (int k = 0; k < kTile * kTile; ++k) {
    const int i = i0 + k % kTile, j = j0 + k / kTile;
    if (!grid.holds(i, j)) continue;
    const Vec2 p = grid.node(i, j);
    if (covered == Cover::some && !contains(model.outline, p)) continue;
    if (usable.in_solid(p)) continue;
    const double z = own ? ground.at(i, j) : height_at(ground, p);
    fill_node(tile, static_cast<std::size_t>(k), {p.x, p.y, z + kLift},
              own ? node_gradient(ground, i, j) : gradient_at(ground, p),
              own ? node_rises(ground, i, j) : rises_at(ground, p));
  }
  if (static_cast<std::size_t>(tile.count) == kTileNodes) set_even(tile);
  if (tile.count > 0) close_gaps(tile);
}

}  // namespace

geom::Grid grid_for(const geom::Heightfield& ground, double cell) {
  const geom::Grid& own = ground.grid;
  if (cell <= 0.0 || cell == own.cell) return own;
  geom::Grid g{own.x0, own.y0, cell, 0, 0};
  g.nx = 1 + static_cast<int>(std::floor((own.x_max() - own.x0) / cell + 1e-9));
  g.ny = 1 + static_cast<int>(std::floor((own.y_max() - own.y0) / cell + 1e-9));
  return g;
}

Vec2 gradient_at(const geom::Heightfield& ground, Vec2 p) {
  const geom::Grid& g = ground.grid;
  const auto along = [&](double lo, double hi, bool x) {
    const Vec2 a = x ? Vec2{lo, p.y} : Vec2{p.x, lo};
    const Vec2 b = x ? Vec2{hi, p.y} : Vec2{p.x, hi};
    return hi > lo ? (height_at(ground, b) - height_at(ground, a)) / (hi - lo) : 0.0;
  };
  return {along(std::max(g.x0, p.x - g.cell), std::min(g.x_max(), p.x + g.cell), true),
          along(std::max(g.y0, p.y - g.cell), std::min(g.y_max(), p.y + g.cell), false)};
}

Rises rises_at(const geom::Heightfield& ground, Vec2 p) {
  const double step = 1e-4 * ground.grid.cell;
  const double here = height_at(ground, p);
  return closed_rises([&](Way way) {
    const auto [di, dj] = kSteps[static_cast<std::size_t>(way)];
    const Vec2 q = p + Vec2{static_cast<double>(di), static_cast<double>(dj)} * step;
    return covers(ground, q) ? (height_at(ground, q) - here) / step : kNone;
  });
}

std::vector<Tile> ground_tiles(const Model& model, const geom::Grid& grid) {
  const usable::UsableGround usable(model);
  const int across = (grid.nx + kTile - 1) / kTile;
  const int up = (grid.ny + kTile - 1) / kTile;
  const geom::Box2 box = geom::bounds(model.outline);
  std::vector<std::vector<Tile>> rows(static_cast<std::size_t>(up));
  tbb::parallel_for(0, up, [&](int row) {
    std::vector<Tile>& to = rows[static_cast<std::size_t>(row)];
    to.reserve(static_cast<std::size_t>(across));
    for (int col = 0; col < across; ++col) {
      const Vec2 lo = grid.node(col * kTile, row * kTile);
      const double side = kTile * grid.cell;
      if (lo.x > box.hi.x || lo.y > box.hi.y || lo.x + side < box.lo.x || lo.y + side < box.lo.y) {
        continue;
      }
      fill_tile(model, usable, grid, col * kTile, row * kTile, to.emplace_back());
      if (to.back().count == 0) to.pop_back();
    }
  });
  std::size_t count = 0;
  for (const auto& row : rows) count += row.size();
  std::vector<Tile> tiles;
  tiles.reserve(count);
  for (auto& row : rows) {
    tiles.insert(tiles.end(), row.begin(), row.end());
    row = {};
  }
  return tiles;
}

}  // namespace hummock::shade

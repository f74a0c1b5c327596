// The nodes to be lit, in square tiles small enough to be judged at once.
#pragma once

#include <array>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::shade {

using geom::Vec2;
using geom::Vec3;

inline constexpr int kTile = 16;  // nodes along a side
inline constexpr std::size_t kTileNodes = kTile * kTile;
inline constexpr double kLift = 0.001;  // m: lines start this far above the ground

// The ways along which the ground's triangles meet at a node: east, north, north-west and back.
enum Way { kEast, kNorth, kNorthWest, kWest, kSouth, kSouthEast, kWays };

// Nodes row by row. Those outside the outline repeat an inside one and have inside = 0.
struct Tile {
  int i0 = 0, j0 = 0;                        // the first node in the grid
  int count = 0;                             // nodes inside, >= 1
  bool even = false;                         // all inside: x the same in each row, y along each
  Vec3 ref;                                  // x, y, z below are relative to it
  geom::Box3 box;                            // of the inside nodes as lifted, not relative
  float gx0 = 0, gx1 = 0, gy0 = 0, gy1 = 0;  // range of the gradients of the triangles at the nodes
  std::array<float, kTile> row_y{};          // of an even tile: y of each row
  // Heights first: with what stands above they are most asked for.
  alignas(32) std::array<float, kTileNodes> z{}, x{}, y{}, gx{}, gy{};  // mean dz/dx, dz/dy
  // Rise of the surface from the node along each way, for one step (1 or √2 m) of it.
  alignas(32) std::array<std::array<float, kTileNodes>, kWays> rise{};
  std::array<unsigned char, kTileNodes> inside{};
  std::size_t node(const geom::Grid& grid, std::size_t k) const {
    return grid.index(i0 + static_cast<int>(k) % kTile, j0 + static_cast<int>(k) / kTile);
  }
};

// Of a tile whose x is the same in each row, and y along each.
inline void set_even(Tile& tile) {
  tile.even = true;
  for (std::size_t r = 0; r < kTile; ++r) tile.row_y[r] = tile.y[r * kTile];
}

// The grid asked for: the ground's own for cell = 0, else nodes `cell` apart over the same area.
geom::Grid grid_for(const geom::Heightfield& ground, double cell);

// Tiles with at least one node inside, row by row. Inside: within the outline and not buried in
// something solid (engine/usable/usable_ground.h).
std::vector<Tile> ground_tiles(const Model& model, const geom::Grid& grid);

// Gradient at p by central differences over one cell of the ground either way.
Vec2 gradient_at(const geom::Heightfield& ground, Vec2 p);

// Rise of the triangulated surface from p along each way, as Tile::rise. Where the ground ends it
// is taken to go on as on the other side of p.
using Rises = std::array<float, kWays>;
Rises rises_at(const geom::Heightfield& ground, Vec2 p);

}  // namespace hummock::shade

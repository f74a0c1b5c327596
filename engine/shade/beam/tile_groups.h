// Tiles in squares that are judged together first.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/shade/beam/ground_tiles.h"

namespace hummock::shade {

inline constexpr int kGroupSide = 4;  // tiles along a side; layout of the work

struct TileGroup {
  std::vector<std::size_t> tiles;  // rising
  geom::Box3 box;                  // of their nodes
};
// Row by row.
std::vector<TileGroup> group_tiles(const std::vector<Tile>& tiles);

}  // namespace hummock::shade

#include "engine/shade/beam/tile_groups.h"

#include <map>
#include <utility>

namespace hummock::shade {

std::vector<TileGroup> group_tiles(const std::vector<Tile>& tiles) {
  constexpr int kSide = kTile * kGroupSide;
  std::map<std::pair<int, int>, TileGroup> groups;
  for (std::size_t k = 0; k < tiles.size(); ++k) {
    TileGroup& g = groups[{tiles[k].j0 / kSide, tiles[k].i0 / kSide}];
    g.tiles.push_back(k);
    g.box.add(tiles[k].box);
  }
  std::vector<TileGroup> result;
  result.reserve(groups.size());
  for (auto& [key, g] : groups) result.push_back(std::move(g));
  return result;
}

}  // namespace hummock::shade

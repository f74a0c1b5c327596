// Share of each clock hour's sunlit time that a tile's nodes are shaded.
#pragma once

#include "engine/shade/day/tile_sums.h"
#include "geometry/plan/grid.h"

namespace hummock::shade {

// One hour at a time.
class HourShade {
 public:
  void add(double hours, const TileRows& shaded) {
    all_ += hours;
    if (shaded == TileRows{}) return;
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if ((shaded[k / kTile] >> k % kTile & 1U) != 0) dark_[k] += hours;
  }
  // Writes the hour's share and begins the next.
  void write(const Tile& tile, geom::Raster& share) {
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tile.inside[k] != 0)
        share.values[tile.node(share.grid, k)] = static_cast<float>(dark_[k] / all_);
    *this = {};
  }

 private:
  double all_ = 0.0;
  std::array<double, kTileNodes> dark_{};
};

}  // namespace hummock::shade

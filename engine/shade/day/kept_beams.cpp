#include "engine/shade/day/kept_beams.h"

#include <algorithm>

namespace hummock::shade {

KeptBeams::KeptBeams(const geom::Grid& grid, const std::vector<Tile>& tiles, std::size_t steps)
    : grid_(grid), steps_(steps), tiles_(tiles.size()) {
  for (std::size_t t = 0; t < tiles.size(); ++t) {
    OfTile& to = tiles_[t];
    to.i0 = tiles[t].i0;
    to.j0 = tiles[t].j0;
    to.first.reserve(steps + 1);
    to.first.push_back(0);
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tiles[t].inside[k] != 0)
        to.inside[k / kTile] |= static_cast<std::uint16_t>(1U << k % kTile);
  }
}

void KeptBeams::add(std::size_t tile, const TileBeam& beam) {
  OfTile& to = tiles_[tile];
  if (beam.uniform) {
    to.numbers.push_back(beam.value);
  } else {
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if ((to.inside[k / kTile] >> k % kTile & 1U) != 0) to.numbers.push_back(beam.each[k]);
  }
  to.first.push_back(to.numbers.size());
}

geom::Raster KeptBeams::band(std::size_t step) const {
  geom::Raster out(grid_);
  for (const OfTile& from : tiles_) {
    const float* number = from.numbers.data() + from.first[step];
    const bool one = from.first[step + 1] - from.first[step] == 1;
    for (std::size_t r = 0; r < kTile; ++r) {
      if (from.inside[r] == 0) continue;
      float* to = &out.values[grid_.index(from.i0, from.j0 + static_cast<int>(r))];
      if (one && from.inside[r] == 0xFFFFU) {
        std::fill_n(to, kTile, *number);
        continue;
      }
      for (std::size_t k = 0; k < kTile; ++k) {
        if ((from.inside[r] >> k & 1U) == 0) continue;
        to[k] = *number;
        if (!one) ++number;
      }
    }
  }
  return out;
}

}  // namespace hummock::shade

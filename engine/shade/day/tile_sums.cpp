#include "engine/shade/day/tile_sums.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {

TileSums::TileSums(const Tile& tile, double shaded_below)
    : tile_(tile), shaded_below_(shaded_below) {
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const double gx = tile.gx[k], gy = tile.gy[k];
    per_slope_[k] = 1.0 / std::sqrt(1.0 + gx * gx + gy * gy);
  }
}

// A tile under one beam faces the sun with all its triangles, so the tilt is nowhere below nothing.
void TileSums::add_light(const StepLight& step, const TileBeam& beam) {
  if (beam.uniform) {
    const double b = beam.value;
    all_hours_ += b * step.hours;
    all_level_ += b * step.direct;
    all_x_ += b * step.direct * step.run.x;
    all_y_ += b * step.direct * step.run.y;
    return;
  }
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const double b = beam.each[k];
    const double tilt = (1.0 - tile_.gx[k] * step.run.x - tile_.gy[k] * step.run.y) * per_slope_[k];
    hours_[k] += b * step.hours;
    direct_[k] += b * step.direct * std::max(0.0, tilt);
  }
}

TileRows TileSums::add(const StepLight& step, const TileBeam& beam) {
  add_light(step, beam);
  TileRows shaded{};
  if (beam.uniform && beam.value >= shaded_below_) {
    if (any_shade_) shade_.fill(0.0);
    any_shade_ = false;
    return shaded;
  }
  any_shade_ = true;
  const double hot = step.hot ? step.hours : 0.0;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const bool in_shade = beam.at(k) < shaded_below_;
    shade_[k] = in_shade ? shade_[k] + step.hours : 0.0;
    longest_[k] = std::max(longest_[k], shade_[k]);
    hot_[k] += in_shade ? hot : 0.0;
    shaded[k / kTile] |= static_cast<std::uint16_t>(static_cast<unsigned>(in_shade) << k % kTile);
  }
  return shaded;
}

}  // namespace hummock::shade

#include "engine/shade/year/month_sums.h"

#include <tbb/parallel_for.h>

#include <algorithm>

namespace hummock::shade {

MonthSums::MonthSums(const geom::Grid& grid, const std::vector<Tile>& tiles)
    : grid_(grid), tiles_(tiles), all_(tiles.size()), each_(12, geom::Raster(grid)) {
  for (const Tile& tile : tiles_)
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tile.inside[k] != 0)
        for (geom::Raster& month : each_) month.values[tile.node(grid_, k)] = 0.0F;
}

void MonthSums::add(std::size_t t, std::size_t month, double hours, const TileBeam& beam) {
  if (beam.uniform) return add(t, month, beam.value * hours);
  const Tile& tile = tiles_[t];
  const auto h = static_cast<float>(hours);
  const int across = std::min(kTile, grid_.nx - tile.i0), up = std::min(kTile, grid_.ny - tile.j0);
  for (int j = 0; j < up; ++j) {
    // Nodes outside hold nothing (NaN), and go on holding it.
    float* sum = &each_[month].values[grid_.index(tile.i0, tile.j0 + j)];
    const float* b = &beam.each[static_cast<std::size_t>(j) * kTile];
    for (int i = 0; i < across; ++i) sum[i] += b[i] * h;
  }
}

void MonthSums::write_tile(std::size_t t, const std::array<int, 12>& days, Year& year) {
  const Tile& tile = tiles_[t];
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0) continue;
    const std::size_t n = tile.node(grid_, k);
    double sum = 0.0;
    for (std::size_t m = 0; m < 12; ++m) {
      float& value = each_[m].values[n];
      const double hours = all_[t][m] + value;
      value = static_cast<float>(hours / days[m]);
      sum += hours;
    }
    year.sun_hours.values[n] = static_cast<float>(sum);
  }
}

void MonthSums::write(Year& year) {
  std::array<int, 12> days{};
  for (int m = 1; m <= 12; ++m) {
    const sun::Date next =
        m == 12 ? sun::Date{year.year + 1, 1, 1} : sun::Date{year.year, m + 1, 1};
    days[static_cast<std::size_t>(m - 1)] =
        sun::day_number(next) - sun::day_number({year.year, m, 1});
  }
  year.sun_hours = geom::Raster(grid_);
  tbb::parallel_for(std::size_t{0}, tiles_.size(),
                    [&](std::size_t t) { write_tile(t, days, year); });
  year.month_sun_hours = std::move(each_);
}

}  // namespace hummock::shade

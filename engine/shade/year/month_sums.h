// Hours of sun of every node, month by month, summed up where they are handed out.
//
// Hours a whole tile has in common are kept once, in double; the others in the layers themselves,
// in float32: a month's sum of some thousand terms is off by less than 0.01 h.
#pragma once

#include <array>
#include <vector>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

class MonthSums {
 public:
  // The tiles must outlive it.
  MonthSums(const geom::Grid& grid, const std::vector<Tile>& tiles);
  // To all nodes of tile t; month 0..11.
  void add(std::size_t t, std::size_t month, double hours) { all_[t][month] += hours; }
  // By what arrives at each. Different tiles may be added to at the same time.
  void add(std::size_t t, std::size_t month, double hours, const TileBeam& beam);
  // Hours a day of the month and in the year. What was added is gone.
  void write(Year& year);

 private:
  void write_tile(std::size_t t, const std::array<int, 12>& days, Year& year);

  geom::Grid grid_;
  const std::vector<Tile>& tiles_;
  std::vector<std::array<double, 12>> all_;  // of each tile
  std::vector<geom::Raster> each_;           // of each month
};

}  // namespace hummock::shade

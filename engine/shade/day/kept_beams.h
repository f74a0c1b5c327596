// The beam at each step of a day over the whole ground, kept tile by tile: of a tile under one beam
// one number. A band is made when it is asked for, so that a hundred need not stand in memory.
#pragma once

#include <vector>

#include "engine/shade/cast/tile_beam.h"
#include "engine/shade/day/tile_sums.h"
#include "geometry/plan/grid.h"

namespace hummock::shade {

class KeptBeams {
 public:
  KeptBeams() = default;
  KeptBeams(const geom::Grid& grid, const std::vector<Tile>& tiles, std::size_t steps);
  // The tile's beams in the order of the steps; other tiles may be given at the same time.
  void add(std::size_t tile, const TileBeam& beam);
  std::size_t size() const { return steps_; }
  // NaN outside.
  geom::Raster band(std::size_t step) const;

 private:
  struct OfTile {
    int i0 = 0, j0 = 0;
    TileRows inside{};
    std::vector<std::size_t> first;  // of the step's numbers
    std::vector<float> numbers;      // one, or one for each node inside
  };
  geom::Grid grid_;
  std::size_t steps_ = 0;
  std::vector<OfTile> tiles_;
};

}  // namespace hummock::shade

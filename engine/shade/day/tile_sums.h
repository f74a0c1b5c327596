// Running sums over a day of a tile's nodes.
#pragma once

#include <array>
#include <cstdint>

#include "engine/shade/beam/fast_beam.h"

namespace hummock::shade {

// A row of a tile's nodes a number, bit k the row's kth.
using TileRows = std::array<std::uint16_t, kTile>;

struct StepLight {
  double hours = 0;   // the step stands for
  double direct = 0;  // kWh/m² of level ground in a whole beam over them
  Vec2 run;           // of the sun's ray
  bool hot = false;   // within the hot hours
};

class TileSums {
 public:
  TileSums(const Tile& tile, double shaded_below);
  // Returns the nodes in shade (those outside the outline say nothing).
  TileRows add(const StepLight& step, const TileBeam& beam);

  double hours(std::size_t k) const { return all_hours_ + hours_[k]; }
  // Direct light falls on the slope: for each metre of level ground 1 − g·run over its length.
  double direct(std::size_t k) const {
    return direct_[k] + (all_level_ - tile_.gx[k] * all_x_ - tile_.gy[k] * all_y_) * per_slope_[k];
  }
  double longest_shade(std::size_t k) const { return longest_[k]; }
  double hot_shade(std::size_t k) const { return hot_[k]; }

 private:
  using Sums = std::array<double, kTileNodes>;
  void add_light(const StepLight& step, const TileBeam& beam);

  const Tile& tile_;
  double shaded_below_;
  Sums hours_{}, direct_{}, shade_{}, longest_{}, hot_{}, per_slope_{};
  bool any_shade_ = false;
  // Of the steps in which the whole tile has one and the same beam.
  double all_hours_ = 0, all_level_ = 0, all_x_ = 0, all_y_ = 0;
};

}  // namespace hummock::shade

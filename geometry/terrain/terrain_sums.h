// Every window metric of geometry/terrain/terrain_metrics.h in one pass, summed over chosen nodes.
//
// Same windows, same numbers in double (no rasters are stored). Runs over fixed tiles of rows in
// parallel and adds the tiles in order: the same bits for any number of threads.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

struct TerrainSums {
  std::size_t nodes = 0;                    // chosen and with a whole 3 × 3 window
  double slope_sum = 0.0, slope_max = 0.0;  // rad
  double ruggedness_sum = 0.0;              // m
  double position_sum = 0.0, position_square_sum = 0.0;
  double roughness_sum = 0.0;    // m
  std::size_t flat = 0;          // nodes with slope < TerrainLimits::flat
  std::size_t vector_nodes = 0;  // chosen and with a whole 5 × 5 window
  double vector_ruggedness_sum = 0.0;
  // Nodes by the way the ground falls, eight compass classes centred on N, NE … NW; those flatter
  // than TerrainLimits::no_aspect are in none.
  std::array<std::size_t, 8> aspects{};
};

struct TerrainLimits {
  double flat = 5.0 * kDegree;       // rad, 0..π/2
  double no_aspect = 1.0 * kDegree;  // rad, 0..π/2
};

// `chosen`: one a node, non-zero = counted; its size must be the grid's.
TerrainSums terrain_sums(const Heightfield& ground, const std::vector<std::uint8_t>& chosen,
                         const TerrainLimits& limits = {});

}  // namespace hummock::geom

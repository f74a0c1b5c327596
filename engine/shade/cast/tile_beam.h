// The beam over a tile at one sun, while what stands near takes from it.
#pragma once

#include <algorithm>
#include <array>

#include "engine/shade/beam/ground_tiles.h"

namespace hummock::shade {

// One number for all its nodes, or one each. Nodes outside hold anything.
struct TileBeam {
  bool uniform = false;
  float value = 0.0F;
  alignas(32) std::array<float, kTileNodes> each{};
  float at(std::size_t k) const { return uniform ? value : each[k]; }
};

inline void spread(TileBeam& beam) {
  if (!beam.uniform) return;
  beam.each.fill(beam.value);
  beam.uniform = false;
}

inline void multiply(TileBeam& beam, float factor) {
  beam.value *= factor;
  if (!beam.uniform)
    for (float& v : beam.each) v *= factor;
}

inline void make_dark(TileBeam& beam) {
  beam.uniform = true;
  beam.value = 0.0F;
}

// Says so of the whole tile where no node gets any.
inline bool all_dark(TileBeam& beam) {
  if (!beam.uniform) {
    for (const float v : beam.each)
      if (v > 0.0F) return false;
    make_dark(beam);
  }
  return beam.uniform && beam.value <= 0.0F;
}

}  // namespace hummock::shade

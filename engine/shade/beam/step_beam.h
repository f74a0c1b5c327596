// The beam over a tile at one time: the sun's ray, or the rays of its disc averaged.
#pragma once

#include <span>
#include <vector>

#include "engine/shade/beam/fast_beam.h"

namespace hummock::shade {

// `sweeps`: one a sun (FastBeam::sweeps); `near`: all casters that could shade the tile, rising.
// `scratch` is the caller's, so that none is made each time.
void beam_of_step(const FastBeam& fast, const Tile& tile, const std::vector<SunRay>& suns,
                  const std::vector<GroundStatus>& sweeps, const sun::Date& date,
                  std::span<const int> near, TileBeam& beam, TileBeam& scratch);

}  // namespace hummock::shade

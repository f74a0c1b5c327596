// The beam over a tile at one time: the sun's ray, or the rays of its disc averaged.
#pragma once

#include <span>
#include <vector>

#include "engine/shade/beam/fast_beam.h"

namespace hummock::shade {

// What stands near some tiles at one time, laid out for each sun (FastBeam::lay_out).
struct StepShadows {
  std::vector<NearShadows> suns;
  std::vector<char> clear;  // the ground shades none of the tiles
};
// `box` holds every node to be asked for; `near`: all casters that could shade it, rising.
void lay_out(const FastBeam& fast, const geom::Box3& box, const std::vector<SunRay>& suns,
             const sun::Date& date, std::span<const int> near, StepShadows& shadows);

// `sweeps`: one a sun (FastBeam::sweeps), or none. `scratch` is the caller's, so that none is made
// each time.
void beam_of_step(const FastBeam& fast, const Tile& tile, const StepShadows& shadows,
                  std::span<const GroundStatus> sweeps, TileBeam& beam, TileBeam& scratch);

}  // namespace hummock::shade

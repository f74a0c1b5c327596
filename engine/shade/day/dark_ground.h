// Which nodes of the ground are dark at each step: what a day's light says of an animal, whatever
// its body. The places to lie (lying_places.h) and what of it stands in the light (over_body.h) are
// then asked of them.
#pragma once

#include <memory>
#include <vector>

#include "engine/shade/beam/far_horizon.h"
#include "engine/shade/day/day_sums.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// Of each tile, at each step of the day: its nodes in shade.
using DarkTiles = std::vector<ShadedPlaces>;

struct DarkGround {
  DarkTiles day;
  std::vector<DarkTiles> hot_days;  // as Settings::hot_days, their hot steps
  std::shared_ptr<const FarHorizon> far;
};

}  // namespace hummock::shade

// What a day comes to over the places to lie.
#pragma once

#include <vector>

#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/day/tile_sums.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// Of a tile, at each step: the shaded places to lie.
using ShadedPlaces = std::vector<TileRows>;

// `shaded`: one a tile. Fills the shares, m², extremes and means of a day whose layers are done.
void sum_up(const Model& model, const DayPlan& plan, const LyingPlaces& lying,
            const std::vector<Tile>& tiles, const std::vector<ShadedPlaces>& shaded, Day& day);

// The least shade of the hottest hours of one more day.
void take_hot_day(HotDay hot, Day& day);

}  // namespace hummock::shade

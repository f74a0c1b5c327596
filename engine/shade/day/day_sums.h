// What a day comes to over the places to lie.
#pragma once

#include <vector>

#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// `shaded`: for each tile, how many of its places to lie are shaded at each step. Fills the shares,
// m², extremes and means of a day whose layers are done.
void sum_up(const Model& model, const DayPlan& plan, const LyingPlaces& lying,
            const std::vector<std::vector<int>>& shaded, Day& day);

}  // namespace hummock::shade

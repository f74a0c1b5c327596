// What a day comes to over the places to lie.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// Of a tile, at each step: the shaded places to lie, a row of nodes a number, bit k the row's kth.
using ShadedRows = std::array<std::uint16_t, kTile>;
using ShadedPlaces = std::vector<ShadedRows>;

// `shaded`: one a tile. Fills the shares, m², extremes and means of a day whose layers are done.
void sum_up(const Model& model, const DayPlan& plan, const LyingPlaces& lying,
            const std::vector<Tile>& tiles, const std::vector<ShadedPlaces>& shaded, Day& day);

}  // namespace hummock::shade

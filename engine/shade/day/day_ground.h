// What the steps of a day are asked of: the ground in tiles, what stands about it, and where on it
// an animal may lie.
#pragma once

#include <vector>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/day_sums.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// Between two reports of progress; layout of the work.
inline constexpr std::size_t kGroupsAtOnce = 32;

struct DayGround {
  // The model must outlive it.
  DayGround(const Model& model, const Settings& settings);

  // Of the settings but for their day; without sweeps.
  DayPlan plan_of(sun::Date date) const;
  // What could shade a group of tiles with the bodies on it at a step.
  std::vector<int> near_step(const DayPlan& plan, std::size_t step, const TileGroup& group) const;
  // Of a tile's nodes, those that are places to lie.
  TileRows lying_in(const Tile& tile) const;
  // At which places to lie the animal is in shade at each step, where `dark` tells what the ground
  // is. `near`: of the steps.
  ShadedPlaces in_shade(const DayPlan& plan, const Tile& tile,
                        const std::vector<std::vector<int>>& near, ShadedPlaces dark) const;

  const Model& model;
  Settings settings;
  const Place& place;
  FastBeam fast;
  geom::Grid grid;
  std::vector<Tile> tiles;
  std::vector<TileGroup> groups;
  LyingPlaces lying;
};

}  // namespace hummock::shade

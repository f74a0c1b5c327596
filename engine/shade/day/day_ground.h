// What the steps of a day are asked of: the ground in tiles, what stands about it, and where on it
// an animal may lie.
#pragma once

#include <memory>
#include <vector>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/day_sums.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/day/over_body.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

// Between two reports of progress; layout of the work.
inline constexpr std::size_t kGroupsAtOnce = 32;

struct DayGround {
  // The model must outlive it. `far` as FastBeam takes it.
  DayGround(const Model& model, const Settings& settings,
            std::shared_ptr<const FarHorizon> far = {});

  // Of the settings but for their day; without sweeps.
  DayPlan plan_of(sun::Date date) const;
  // What could shade a group of tiles with the bodies on it at a step, laid out.
  void lay_out_step(const DayPlan& plan, std::size_t step, const TileGroup& group,
                    StepShadows& shadows) const;
  // Of a tile's nodes, those that are places to lie.
  TileRows lying_in(const Tile& tile) const;

  const Model& model;
  Settings settings;
  const Place& place;
  FastBeam fast;
  geom::Grid grid;
  std::vector<Tile> tiles;
  std::vector<TileGroup> groups;
  LyingPlaces lying;
};

// The bodies on a group of tiles, asked step by step.
class Bodies {
 public:
  // Both must outlive it.
  Bodies(const DayGround& ground, const TileGroup& group);
  // At which places to lie on the group's kth tile the animal is in shade, where `dark` tells what
  // the ground is.
  TileRows in_shade(std::size_t k, const StepShadows& shadows, TileRows dark);

 private:
  const DayGround& ground_;
  std::vector<TileRows> places_;
  std::vector<OverBody> over_;
};

}  // namespace hummock::shade

#include "engine/shade/day/day_ground.h"

#include <utility>

#include "engine/shade/day/over_body.h"
#include "engine/shade/settings.h"

namespace hummock::shade {

DayGround::DayGround(const Model& m, const Settings& s)
    : model(m),
      settings(s),
      place(check_settings(m, s)),
      fast(m),
      grid(grid_for(m.ground, s.cell)),
      tiles(ground_tiles(m, grid)),
      groups(group_tiles(tiles)),
      lying(lying_places(m, grid)) {}

DayPlan DayGround::plan_of(sun::Date date) const {
  Settings of_the_day = settings;
  of_the_day.date = date;
  return make_plan(place, of_the_day);
}

std::vector<int> DayGround::near_step(const DayPlan& plan, std::size_t step,
                                      const TileGroup& group) const {
  return fast.near(with_body(group.box, lying.body_height), plan.suns[step]);
}

TileRows DayGround::lying_in(const Tile& tile) const {
  TileRows out{};
  for (std::size_t k = 0; k < kTileNodes; ++k)
    if (tile.inside[k] != 0 && lying.node[tile.node(grid, k)] != 0)
      out[k / kTile] |= static_cast<std::uint16_t>(1U << k % kTile);
  return out;
}

ShadedPlaces DayGround::in_shade(const DayPlan& plan, const Tile& tile,
                                 const std::vector<std::vector<int>>& near,
                                 ShadedPlaces dark) const {
  const TileRows places = lying_in(tile);
  OverBody over(fast, tile, lying.body_height);
  for (std::size_t t = 0; t < dark.size(); ++t) {
    for (std::size_t r = 0; r < kTile; ++r) dark[t][r] &= places[r];
    over.take_lit(plan.suns[t], plan.date, near[t], settings.shaded_below, dark[t]);
  }
  return dark;
}

}  // namespace hummock::shade

#include "engine/shade/day/day_ground.h"

#include <tbb/parallel_invoke.h>

#include <utility>

#include "engine/shade/settings.h"

namespace hummock::shade {

DayGround::DayGround(const Model& m, const Settings& s, std::shared_ptr<const FarHorizon> far)
    : model(m),
      settings(s),
      place(check_settings(m, s)),
      fast(m, std::move(far)),
      grid(grid_for(m.ground, s.cell)) {
  // Neither asks anything of the other, and both go some of their way on one thread.
  tbb::parallel_invoke(
      [&] {
        tiles = ground_tiles(m, grid);
        groups = group_tiles(tiles);
      },
      [&] { lying = lying_places(m, grid); });
}

DayPlan DayGround::plan_of(sun::Date date) const {
  Settings of_the_day = settings;
  of_the_day.date = date;
  return make_plan(place, of_the_day);
}

void DayGround::lay_out_step(const DayPlan& plan, std::size_t step, const TileGroup& group,
                             StepShadows& shadows) const {
  const geom::Box3 box = with_body(group.box, lying.body_height);
  lay_out(fast, box, plan.suns[step], plan.date, fast.near(box, plan.suns[step]), shadows);
}

TileRows DayGround::lying_in(const Tile& tile) const {
  TileRows out{};
  for (std::size_t k = 0; k < kTileNodes; ++k)
    if (tile.inside[k] != 0 && lying.node[tile.node(grid, k)] != 0)
      out[k / kTile] |= static_cast<std::uint16_t>(1U << k % kTile);
  return out;
}

Bodies::Bodies(const DayGround& ground, const TileGroup& group) : ground_(ground) {
  over_.reserve(group.tiles.size());
  for (const std::size_t k : group.tiles) {
    places_.push_back(ground.lying_in(ground.tiles[k]));
    over_.emplace_back(ground.fast, ground.tiles[k], ground.lying.body_height);
  }
}

TileRows Bodies::in_shade(std::size_t k, const StepShadows& shadows, TileRows dark) {
  for (std::size_t r = 0; r < kTile; ++r) dark[r] &= places_[k][r];
  over_[k].take_lit(shadows, ground_.settings.shaded_below, dark);
  return dark;
}

}  // namespace hummock::shade

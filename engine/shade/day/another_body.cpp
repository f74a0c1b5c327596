// A day's figures for another animal on the same site.
#include <algorithm>

#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/day/dark_ground.h"
#include "engine/shade/day/day_ground.h"
#include "engine/shade/shade.h"

namespace hummock::shade {
namespace {

class AnotherBody {
 public:
  AnotherBody(const Model& model, const Settings& settings, const Day& known)
      : ground_(model, settings, known.dark->far), known_(known) {}

  Day day(sun::Date date, const DarkTiles& dark, Steps steps, const Progress& progress) const {
    const DayPlan plan = ground_.plan_of(date);
    if (steps == Steps::all) return day_of(plan, dark, progress);
    return day_of(hot_part(plan), hot_steps(plan, dark), progress);
  }
  HotDay hottest_of(sun::Date date, const DarkTiles& dark, const Progress& progress) const {
    const Day day = day_of(hot_part(ground_.plan_of(date)), dark, progress);
    return {date, day.hottest_shade_m2_per_animal, day.hottest_at, day.hottest_when};
  }

 private:
  Day day_of(const DayPlan& plan, const DarkTiles& dark, const Progress& progress) const {
    Day day = lay_out(plan, ground_.place, ground_.grid, false);
    day.sun_hours = known_.sun_hours;
    day.irradiation_kwh_m2 = known_.irradiation_kwh_m2;
    day.sky_view = known_.sky_view;
    std::vector<ShadedPlaces> shaded(ground_.tiles.size());
    over_tiles(
        ground_.groups.size(), progress, "shade", 0.0, 1.0,
        [&](std::size_t g) { group(plan, ground_.groups[g], dark, shaded); }, kGroupsAtOnce);
    sum_up(ground_.model, plan, ground_.lying, ground_.tiles, shaded, day);
    return day;
  }

  static DarkTiles hot_steps(const DayPlan& plan, const DarkTiles& dark) {
    DarkTiles out(dark.size());
    for (std::size_t k = 0; k < dark.size(); ++k)
      for (std::size_t t = 0; t < plan.steps.size(); ++t)
        if (hot(plan.steps[t])) out[k].push_back(dark[k][t]);
    return out;
  }

  void group(const DayPlan& plan, const TileGroup& group, const DarkTiles& dark,
             std::vector<ShadedPlaces>& shaded) const {
    Bodies bodies(ground_, group);
    StepShadows shadows;
    for (const std::size_t k : group.tiles) shaded[k].resize(plan.steps.size());
    for (std::size_t t = 0; t < plan.steps.size(); ++t) {
      if (!any_dark(group, dark, t)) continue;
      ground_.lay_out_step(plan, t, group, shadows);
      for (std::size_t k = 0; k < group.tiles.size(); ++k) {
        const std::size_t tile = group.tiles[k];
        shaded[tile][t] = bodies.in_shade(k, shadows, dark[tile][t]);
      }
    }
  }

  static bool any_dark(const TileGroup& group, const DarkTiles& dark, std::size_t step) {
    return std::any_of(group.tiles.begin(), group.tiles.end(),
                       [&](std::size_t k) { return dark[k][step] != TileRows{}; });
  }

  DayGround ground_;
  const Day& known_;
};

}  // namespace

Day with_another_body(const Model& model, const Settings& settings, const Day& known, Steps steps,
                      const Progress& progress) {
  if (!known.dark) return analyse(model, settings, progress);
  const AnotherBody other(model, settings, known);
  Day day = other.day(settings.date, known.dark->day, steps, progress);
  for (std::size_t k = 0; k < settings.hot_days.size(); ++k)
    take_hot_day(other.hottest_of(settings.hot_days[k], known.dark->hot_days[k], progress), day);
  return day;
}

}  // namespace hummock::shade

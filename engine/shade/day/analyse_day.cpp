// Shade over one day.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/object_tops.h"
#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/beam/step_beam.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/day_sums.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/day/over_body.h"
#include "engine/shade/day/tile_sums.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/sky_view.h"

namespace hummock::shade {
namespace {

constexpr std::size_t kGroupsAtOnce = 32;  // between two reports of progress

// Sky view of every node, for one state of the leaves.
struct SkyViews {
  std::vector<bool> bare;  // of each caster
  std::vector<double> of_node;
};

// What stands near a group of tiles, for each step and each patch of the sky.
struct Near {
  std::vector<std::vector<int>> steps, sky;
};

class DayAnalysis {
 public:
  DayAnalysis(const Model& model, const Settings& settings)
      : model_(model),
        settings_(settings),
        place_(check_settings(model, settings)),
        fast_(model),
        grid_(grid_for(model.ground, settings.cell)),
        tiles_(ground_tiles(model, grid_)),
        groups_(group_tiles(tiles_)),
        lying_(lying_places(model, grid_)),
        sky_(sky_patches()) {
    std::vector<SunRay> rays;
    for (const SkyPatch& p : sky_) rays.push_back(p.ray);
    sky_sweeps_ = fast_.sweeps(tiles_, grid_, rays);
  }

  Day run(sun::Date date, const Progress& progress, double from, double to) {
    Settings settings = settings_;
    settings.date = date;
    DayPlan plan = make_plan(place_, settings);
    sweep(plan);
    Day day = lay_out(plan, place_, grid_, settings_.keep_bands);
    std::vector<ShadedPlaces> shaded(tiles_.size());
    const std::vector<bool> bare = fast_.bare_at(date);
    auto seen = std::find_if(views_.begin(), views_.end(),
                             [&](const SkyViews& v) { return v.bare == bare; });
    const bool new_leaves = seen == views_.end();
    if (new_leaves) seen = views_.insert(seen, {bare, std::vector<double>(grid_.size(), 0.0)});
    over_tiles(
        groups_.size(), progress, "shade", from, to,
        [&](std::size_t g) {
          const Near near = near_group(plan, groups_[g], new_leaves);
          for (const std::size_t k : groups_[g].tiles) {
            if (new_leaves) set_view(plan, tiles_[k], near, *seen);
            shaded[k] = one_tile(plan, tiles_[k], near, *seen, day);
          }
        },
        kGroupsAtOnce);
    sum_up(model_, plan, lying_, tiles_, shaded, day);
    day.objects = object_tops(model_, fast_.rays(), plan.steps, plan.suns, date);
    return day;
  }

  // The least shade of the hottest hours of one more day.
  HotDay hottest_of(sun::Date date, const Progress& progress, double from, double to) {
    Settings settings = settings_;
    settings.date = date;
    DayPlan plan = hot_part(make_plan(place_, settings));
    sweep(plan);
    Day day = lay_out(plan, place_, grid_, settings_.keep_bands);
    const SkyViews no_views{{}, std::vector<double>(grid_.size(), 0.0)};
    std::vector<ShadedPlaces> shaded(tiles_.size());
    over_tiles(
        groups_.size(), progress, "shade", from, to,
        [&](std::size_t g) {
          const Near near = near_group(plan, groups_[g], false);
          for (const std::size_t k : groups_[g].tiles)
            shaded[k] = one_tile(plan, tiles_[k], near, no_views, day);
        },
        kGroupsAtOnce);
    sum_up(model_, plan, lying_, tiles_, shaded, day);
    return {date, day.hottest_shade_m2_per_animal, day.hottest_at, day.hottest_when};
  }

 private:
  // All steps' suns at once, so that the threads share them.
  void sweep(DayPlan& plan) const {
    std::vector<SunRay> all;
    for (const auto& suns : plan.suns) all.insert(all.end(), suns.begin(), suns.end());
    std::vector<GroundStatus> sweeps = fast_.sweeps(tiles_, grid_, all);
    auto next = std::make_move_iterator(sweeps.begin());
    for (const auto& suns : plan.suns) {
      plan.sweeps.emplace_back(next, next + static_cast<long>(suns.size()));
      next += static_cast<long>(suns.size());
    }
  }

  Near near_group(const DayPlan& plan, const TileGroup& group, bool with_sky) const {
    Near near;
    const geom::Box3 bodies = with_body(group.box, lying_.body_height);
    for (const auto& suns : plan.suns) near.steps.push_back(fast_.near(bodies, suns));
    if (!with_sky) return near;
    for (const SkyPatch& p : sky_) near.sky.push_back(fast_.near(group.box, {&p.ray, 1}));
    return near;
  }

  void set_view(const DayPlan& plan, const Tile& tile, const Near& near, SkyViews& views) const {
    std::array<double, kTileNodes> view{};
    sky_view(fast_, tile, sky_, sky_sweeps_, near.sky, plan.date, view);
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tile.inside[k] != 0) views.of_node[tile.node(grid_, k)] = view[k];
  }

  // Of the tile's nodes, those that are places to lie.
  TileRows lying_in(const Tile& tile) const {
    TileRows out{};
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tile.inside[k] != 0 && lying_.node[tile.node(grid_, k)] != 0)
        out[k / kTile] |= static_cast<std::uint16_t>(1U << k % kTile);
    return out;
  }

  static StepLight light_of(const DayPlan& plan, std::size_t t) {
    const Step& step = plan.steps[t];
    return {step.hours, plan.sky[t].direct * step.sun.towards.z * step.hours / 1000.0,
            plan.suns[t].front().run, hot(step)};
  }

  // Writes the tile's nodes of every layer; returns at which places the animal is in shade at each
  // step.
  ShadedPlaces one_tile(const DayPlan& plan, const Tile& tile, const Near& near,
                        const SkyViews& views, Day& day) const {
    ShadedPlaces shaded(plan.steps.size());
    TileSums sums(tile, settings_.shaded_below);
    TileBeam beam, scratch;
    const TileRows lying = lying_in(tile);
    OverBody over(fast_, tile, lying_.body_height);
    for (std::size_t t = 0; t < plan.steps.size(); ++t) {
      beam_of_step(fast_, tile, plan.suns[t], plan.sweeps[t], plan.date, near.steps[t], beam,
                   scratch);
      shaded[t] = sums.add(light_of(plan, t), beam);
      for (std::size_t r = 0; r < kTile; ++r) shaded[t][r] &= lying[r];
      over.take_lit(plan.suns[t], plan.date, near.steps[t], settings_.shaded_below, shaded[t]);
      if (settings_.keep_bands) keep(tile, beam, day.beams[t]);
    }
    write(plan, tile, sums, views, day);
    if (settings_.keep_bands) keep_hours(plan, tile, day);
    return shaded;
  }

  void write(const DayPlan& plan, const Tile& tile, const TileSums& sums, const SkyViews& views,
             Day& day) const {
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] == 0) continue;
      const std::size_t n = tile.node(grid_, k);
      const double view = views.of_node[n];
      day.sun_hours.values[n] = static_cast<float>(sums.hours(k));
      day.longest_shade_h.values[n] = static_cast<float>(sums.longest_shade(k));
      day.midday_shade_share.values[n] =
          plan.hot_hours > 0 ? static_cast<float>(sums.hot_shade(k) / plan.hot_hours) : 1.0F;
      day.direct_kwh_m2.values[n] = static_cast<float>(sums.direct(k));
      day.irradiation_kwh_m2.values[n] =
          static_cast<float>(sums.direct(k) + plan.diffuse_kwh_m2 * view);
      day.sky_view.values[n] = static_cast<float>(view);
    }
  }

  void keep(const Tile& tile, const TileBeam& beam, geom::Raster& band) const {
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] != 0) band.values[tile.node(grid_, k)] = beam.at(k);
    }
  }

  // Share of each clock hour's sunlit time that the node is shaded.
  void keep_hours(const DayPlan& plan, const Tile& tile, Day& day) const {
    for (std::size_t h = 0, first = 0; h < day.hour_of_clock.size(); ++h) {
      std::size_t last = first;
      while (last < plan.steps.size() && plan.clock_hour[last] == day.hour_of_clock[h]) ++last;
      for (std::size_t k = 0; k < kTileNodes; ++k) {
        if (tile.inside[k] == 0) continue;
        const std::size_t n = tile.node(grid_, k);
        double all = 0.0, dark = 0.0;
        for (std::size_t t = first; t < last; ++t) {
          all += plan.steps[t].hours;
          if (day.beams[t].values[n] < settings_.shaded_below) dark += plan.steps[t].hours;
        }
        day.hour_shade_share[h].values[n] = static_cast<float>(dark / all);
      }
      first = last;
    }
  }

  const Model& model_;
  Settings settings_;
  const Place& place_;
  FastBeam fast_;
  geom::Grid grid_;
  std::vector<Tile> tiles_;
  std::vector<TileGroup> groups_;
  LyingPlaces lying_;
  std::vector<SkyPatch> sky_;
  std::vector<GroundStatus> sky_sweeps_;
  std::vector<SkyViews> views_;  // of the leaf states met so far
};

void take(HotDay hot, Day& day) {
  if (!hot.at.empty() && hot.shade_m2_per_animal < day.hottest_shade_m2_per_animal) {
    day.hottest_shade_m2_per_animal = hot.shade_m2_per_animal;
    day.hottest_at = hot.at;
    day.hottest_when = hot.when;
    day.hottest_on = hot.date;
  }
  day.hot_days.push_back(std::move(hot));
}

}  // namespace

std::string hottest_in_words(const Day& day) {
  return day.hottest_on ? day.hottest_at + " on " + sun::text(*day.hottest_on) : day.hottest_at;
}

Day analyse(const Model& model, const Settings& settings, const Progress& progress) {
  constexpr double kOfADay = 0.25;  // of its work: the hot hours alone
  const double all = 1.0 + kOfADay * static_cast<double>(settings.hot_days.size());
  DayAnalysis analysis(model, settings);
  Day day = analysis.run(settings.date, progress, 0.0, 1.0 / all);
  for (const sun::Date& date : settings.hot_days) {
    const double done = 1.0 + kOfADay * static_cast<double>(day.hot_days.size());
    take(analysis.hottest_of(date, progress, done / all, (done + kOfADay) / all), day);
  }
  return day;
}

std::vector<Day> season_days(const Model& model, const Settings& settings,
                             const Progress& progress) {
  DayAnalysis analysis(model, settings);
  const int y = settings.date.year;
  const std::array<sun::Date, 4> dates{{{y, 3, 21}, {y, 6, 21}, {y, 9, 23}, {y, 12, 21}}};
  std::vector<Day> days;
  for (std::size_t k = 0; k < dates.size(); ++k) {
    const auto part = static_cast<double>(k);
    days.push_back(analysis.run(dates[k], progress, part / 4.0, (part + 1.0) / 4.0));
  }
  return days;
}

}  // namespace hummock::shade

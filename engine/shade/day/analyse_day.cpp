// Shade over one day.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <memory>
#include <utility>

#include "engine/shade/beam/object_tops.h"
#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/beam/step_beam.h"
#include "engine/shade/day/dark_ground.h"
#include "engine/shade/day/day_ground.h"
#include "engine/shade/day/hour_shade.h"
#include "engine/shade/day/kept_beams.h"
#include "engine/shade/day/tile_sums.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/sky_view.h"
#include "engine/shade/sky/sky_views.h"

namespace hummock::shade {
namespace {

class DayAnalysis {
 public:
  // `known`: sky views of this model, or nothing.
  DayAnalysis(const Model& model, const Settings& settings,
              const std::shared_ptr<const SkyViews>& known)
      : on_(model, settings), sky_(sky_patches()), views_(std::make_shared<SkyViews>()) {
    views_->grid = on_.grid;
    if (known && known->grid == on_.grid) *views_ = *known;
  }

  // `dark`: where not nothing, gets the nodes in shade.
  Day run(sun::Date date, const Progress& progress, double from, double to,
          DarkTiles* dark = nullptr) {
    const DayPlan plan = swept(on_.plan_of(date));
    Day day = lay_out(plan, on_.place, on_.grid, on_.settings.keep_bands);
    const std::vector<bool> bare = on_.fast.bare_at(date);
    const bool lit_sky = on_.settings.sky_light;
    SkyViews::State no_views{{}, lit_sky ? std::vector<double>{} : no_sky()};
    bool new_leaves = false;
    SkyViews::State& views = lit_sky ? views_for(bare, new_leaves) : no_views;
    run_tiles(plan, new_leaves, views, {&progress, from, to}, dark, day);
    day.objects = object_tops(on_.model, on_.fast, plan.steps, plan.suns, date);
    return day;
  }

  // The least shade of the hottest hours of one more day.
  HotDay hottest_of(sun::Date date, const Progress& progress, double from, double to,
                    DarkTiles* dark) {
    const DayPlan plan = swept(hot_part(on_.plan_of(date)));
    Day day = lay_out(plan, on_.place, on_.grid, on_.settings.keep_bands);
    SkyViews::State no_views{{}, no_sky()};
    run_tiles(plan, false, no_views, {&progress, from, to}, dark, day);
    return {date, day.hottest_shade_m2_per_animal, day.hottest_at, day.hottest_when};
  }

  std::shared_ptr<const SkyViews> views() const { return views_; }
  const std::shared_ptr<const FarHorizon>& far() const { return on_.fast.rays().shared_far(); }

 private:
  struct Stretch {
    const Progress* progress;
    double from, to;
  };

  std::vector<double> no_sky() const { return std::vector<double>(on_.grid.size(), 0.0); }

  // Those of that state of the leaves; `fresh` where they are not worked out yet.
  SkyViews::State& views_for(const std::vector<bool>& bare, bool& fresh) {
    auto& states = views_->states;
    const auto seen = std::find_if(states.begin(), states.end(),
                                   [&](const SkyViews::State& v) { return v.bare == bare; });
    fresh = seen == states.end();
    if (!fresh) return *seen;
    if (sky_sweeps_.empty()) sweep_sky();
    states.push_back({bare, no_sky()});
    return states.back();
  }

  void run_tiles(const DayPlan& plan, bool new_leaves, SkyViews::State& views, Stretch told,
                 DarkTiles* dark, Day& day) const {
    std::vector<ShadedPlaces> shaded(on_.tiles.size());
    if (dark != nullptr) dark->resize(on_.tiles.size());
    std::shared_ptr<KeptBeams> beams;
    if (on_.settings.keep_bands)
      beams = std::make_shared<KeptBeams>(on_.grid, on_.tiles, plan.steps.size());
    over_tiles(
        on_.groups.size(), *told.progress, "shade", told.from, told.to,
        [&](std::size_t g) {
          if (new_leaves) set_views(plan, on_.groups[g], views);
          one_group(plan, on_.groups[g], views, dark, shaded, beams.get(), day);
        },
        kGroupsAtOnce);
    day.beams = std::move(beams);
    sum_up(on_.model, plan, on_.lying, on_.tiles, shaded, day);
  }

  void sweep_sky() {
    std::vector<SunRay> rays;
    for (const SkyPatch& p : sky_) rays.push_back(p.ray);
    sky_sweeps_ = on_.fast.sweeps(on_.tiles, on_.grid, rays);
  }

  // All steps' suns at once, so that the threads share them.
  DayPlan swept(DayPlan plan) const {
    std::vector<SunRay> all;
    for (const auto& suns : plan.suns) all.insert(all.end(), suns.begin(), suns.end());
    std::vector<GroundStatus> sweeps = on_.fast.sweeps(on_.tiles, on_.grid, all);
    auto next = std::make_move_iterator(sweeps.begin());
    for (const auto& suns : plan.suns) {
      plan.sweeps.emplace_back(next, next + static_cast<long>(suns.size()));
      next += static_cast<long>(suns.size());
    }
    return plan;
  }

  void set_views(const DayPlan& plan, const TileGroup& group, SkyViews::State& views) const {
    const std::vector<TileView> view =
        sky_view(on_.fast, on_.tiles, group, sky_, sky_sweeps_, plan.date);
    for (std::size_t t = 0; t < group.tiles.size(); ++t) {
      const Tile& tile = on_.tiles[group.tiles[t]];
      for (std::size_t k = 0; k < kTileNodes; ++k)
        if (tile.inside[k] != 0) views.of_node[tile.node(on_.grid, k)] = view[t][k];
    }
  }

  static StepLight light_of(const DayPlan& plan, std::size_t t) {
    const Step& step = plan.steps[t];
    return {step.hours, plan.sky[t].direct * step.sun.towards.z * step.hours / 1000.0,
            plan.suns[t].front().run, hot(step)};
  }

  // What a day leaves of a group's tiles, one each.
  struct GroupSums {
    std::vector<TileSums> sums;
    std::vector<HourShade> hours;
  };

  // Writes the nodes of every layer, and which are in shade at each step.
  void one_group(const DayPlan& plan, const TileGroup& group, const SkyViews::State& views,
                 DarkTiles* dark, std::vector<ShadedPlaces>& shaded, KeptBeams* beams,
                 Day& day) const {
    Bodies bodies(on_, group);
    GroupSums of{{}, std::vector<HourShade>(beams != nullptr ? group.tiles.size() : 0)};
    of.sums.reserve(group.tiles.size());
    for (const std::size_t k : group.tiles) {
      of.sums.emplace_back(on_.tiles[k], on_.settings.shaded_below);
      shaded[k].resize(plan.steps.size());
      if (dark != nullptr) (*dark)[k].resize(plan.steps.size());
    }
    StepShadows shadows;
    TileBeam beam, scratch;
    for (std::size_t t = 0; t < plan.steps.size(); ++t) {
      on_.lay_out_step(plan, t, group, shadows);
      for (std::size_t k = 0; k < group.tiles.size(); ++k) {
        const std::size_t tile = group.tiles[k];
        beam_of_step(on_.fast, on_.tiles[tile], shadows, plan.sweeps[t], beam, scratch);
        const TileRows in_shade = of.sums[k].add(light_of(plan, t), beam);
        if (dark != nullptr) (*dark)[tile][t] = in_shade;
        shaded[tile][t] = bodies.in_shade(k, shadows, in_shade);
        if (beams == nullptr) continue;
        beams->add(tile, beam);
        of.hours[k].add(plan.steps[t].hours, in_shade);
      }
      if (beams != nullptr) write_hour(plan, t, group, of.hours, day);
    }
    for (std::size_t k = 0; k < group.tiles.size(); ++k)
      write(plan, on_.tiles[group.tiles[k]], of.sums[k], views, day);
  }

  // When the step is the last of its hour of the clock.
  void write_hour(const DayPlan& plan, std::size_t t, const TileGroup& group,
                  std::vector<HourShade>& hours, Day& day) const {
    const int hour = plan.clock_hour[t];
    if (t + 1 < plan.steps.size() && plan.clock_hour[t + 1] == hour) return;
    const auto h = std::find(day.hour_of_clock.begin(), day.hour_of_clock.end(), hour) -
                   day.hour_of_clock.begin();
    for (std::size_t k = 0; k < group.tiles.size(); ++k)
      hours[k].write(on_.tiles[group.tiles[k]], day.hour_shade_share[static_cast<std::size_t>(h)]);
  }

  void write(const DayPlan& plan, const Tile& tile, const TileSums& sums,
             const SkyViews::State& views, Day& day) const {
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] == 0) continue;
      const std::size_t n = tile.node(on_.grid, k);
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

  DayGround on_;
  std::vector<SkyPatch> sky_;
  std::vector<GroundStatus> sky_sweeps_;
  std::shared_ptr<SkyViews> views_;
};

}  // namespace

std::string hottest_in_words(const Day& day) {
  return day.hottest_on ? day.hottest_at + " on " + sun::text(*day.hottest_on) : day.hottest_at;
}

Day analyse(const Model& model, const Settings& settings, const Progress& progress,
            const std::shared_ptr<const SkyViews>& sky) {
  constexpr double kOfADay = 0.25;  // of its work: the hot hours alone
  const double all = 1.0 + kOfADay * static_cast<double>(settings.hot_days.size());
  DayAnalysis analysis(model, settings, sky);
  auto dark = std::make_shared<DarkGround>();
  Day day = analysis.run(settings.date, progress, 0.0, 1.0 / all, &dark->day);
  dark->hot_days.resize(settings.hot_days.size());
  for (std::size_t k = 0; k < settings.hot_days.size(); ++k) {
    const double done = 1.0 + kOfADay * static_cast<double>(k);
    take_hot_day(analysis.hottest_of(settings.hot_days[k], progress, done / all,
                                     (done + kOfADay) / all, &dark->hot_days[k]),
                 day);
  }
  dark->far = analysis.far();
  day.dark = std::move(dark);
  day.sky = analysis.views();
  return day;
}

std::vector<Day> season_days(const Model& model, const Settings& settings, const Progress& progress,
                             const std::shared_ptr<const SkyViews>& sky) {
  DayAnalysis analysis(model, settings, sky);
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

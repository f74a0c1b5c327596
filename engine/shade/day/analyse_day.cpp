// Shade over one day.
#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/object_tops.h"
#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/beam/step_beam.h"
#include "engine/shade/day/day_plan.h"
#include "engine/shade/day/day_sums.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/sky_view.h"

namespace hummock::shade {
namespace {

// Running sums of a tile's nodes.
struct NodeSums {
  std::array<double, kTileNodes> hours{}, direct{}, shade{}, longest{}, hot_shade{};
};

void add_step(const DayPlan& plan, std::size_t t, const Tile& tile, const TileBeam& beam,
              double shaded_below, const std::array<unsigned char, kTileNodes>& lying,
              NodeSums& sums, ShadedRows& shaded) {
  const Step& step = plan.steps[t];
  const SunRay& sun = plan.suns[t].front();
  // Direct light on the slope, for each metre of level ground 1 − g·run over the slope's length.
  const double across = plan.sky[t].direct * step.sun.towards.z * step.hours / 1000.0;
  const bool is_hot = hot(step);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    if (tile.inside[k] == 0) continue;
    const double b = beam.at(k);
    if (b > 0.0) {
      const double gx = tile.gx[k], gy = tile.gy[k];
      const double tilt =
          (1.0 - gx * sun.run.x - gy * sun.run.y) / std::sqrt(1 + gx * gx + gy * gy);
      sums.hours[k] += b * step.hours;
      sums.direct[k] += b * across * std::max(0.0, tilt);
    }
    if (b < shaded_below) {
      if (lying[k] != 0)
        shaded[k / kTile] = static_cast<std::uint16_t>(shaded[k / kTile] | 1U << k % kTile);
      sums.shade[k] += step.hours;
      sums.longest[k] = std::max(sums.longest[k], sums.shade[k]);
      if (is_hot) sums.hot_shade[k] += step.hours;
    } else {
      sums.shade[k] = 0.0;
    }
  }
}

class DayAnalysis {
 public:
  DayAnalysis(const Model& model, const Settings& settings)
      : model_(model),
        settings_(settings),
        place_(check_settings(model, settings)),
        fast_(model),
        grid_(grid_for(model.ground, settings.cell)),
        tiles_(ground_tiles(model, grid_)),
        lying_(lying_places(model, grid_)),
        sky_(sky_patches()) {
    std::vector<SunRay> rays;
    for (const SkyPatch& p : sky_) rays.push_back(p.ray);
    sky_sweeps_ = fast_.sweeps(tiles_, grid_, rays);
  }

  Day run(sun::Date date, const Progress& progress, double from, double to) const {
    Settings settings = settings_;
    settings.date = date;
    DayPlan plan = make_plan(place_, settings);
    sweep(plan);
    Day day = lay_out(plan, place_, grid_, settings_.keep_bands);
    std::vector<ShadedPlaces> shaded(tiles_.size());
    over_tiles(tiles_.size(), progress, "shade", from, to,
               [&](std::size_t k) { shaded[k] = one_tile(plan, tiles_[k], day); });
    sum_up(model_, plan, lying_, tiles_, shaded, day);
    day.objects = object_tops(model_, fast_.rays(), plan.steps, plan.suns, date);
    return day;
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

  // Of the tile's nodes, those that are places to lie.
  std::array<unsigned char, kTileNodes> lying_in(const Tile& tile) const {
    std::array<unsigned char, kTileNodes> out{};
    for (std::size_t k = 0; k < kTileNodes; ++k)
      if (tile.inside[k] != 0) out[k] = lying_.node[tile.node(grid_, k)];
    return out;
  }

  // Writes the tile's nodes of every layer; returns which places are shaded at each step.
  ShadedPlaces one_tile(const DayPlan& plan, const Tile& tile, Day& day) const {
    ShadedPlaces shaded(plan.steps.size(), ShadedRows{});
    NodeSums sums;
    TileBeam beam, scratch;
    const std::array<unsigned char, kTileNodes> lying = lying_in(tile);
    for (std::size_t t = 0; t < plan.steps.size(); ++t) {
      beam_of_step(fast_, tile, plan.suns[t], plan.sweeps[t], plan.date, beam, scratch);
      add_step(plan, t, tile, beam, settings_.shaded_below, lying, sums, shaded[t]);
      if (settings_.keep_bands) keep(tile, beam, day.beams[t]);
    }
    std::array<double, kTileNodes> view{};
    sky_view(fast_, tile, sky_, sky_sweeps_, plan.date, view);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tile.inside[k] == 0) continue;
      const std::size_t n = tile.node(grid_, k);
      day.sun_hours.values[n] = static_cast<float>(sums.hours[k]);
      day.longest_shade_h.values[n] = static_cast<float>(sums.longest[k]);
      day.midday_shade_share.values[n] =
          plan.hot_hours > 0 ? static_cast<float>(sums.hot_shade[k] / plan.hot_hours) : 1.0F;
      day.direct_kwh_m2.values[n] = static_cast<float>(sums.direct[k]);
      day.irradiation_kwh_m2.values[n] =
          static_cast<float>(sums.direct[k] + plan.diffuse_kwh_m2 * view[k]);
      day.sky_view.values[n] = static_cast<float>(view[k]);
    }
    if (settings_.keep_bands) keep_hours(plan, tile, day);
    return shaded;
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
  LyingPlaces lying_;
  std::vector<SkyPatch> sky_;
  std::vector<GroundStatus> sky_sweeps_;
};

}  // namespace

Day analyse(const Model& model, const Settings& settings, const Progress& progress) {
  return DayAnalysis(model, settings).run(settings.date, progress, 0.0, 1.0);
}

std::vector<Day> season_days(const Model& model, const Settings& settings,
                             const Progress& progress) {
  const DayAnalysis analysis(model, settings);
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

// Shade over one day.
#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/object_tops.h"
#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/day/day_steps.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/clear_sky.h"
#include "engine/shade/sky/sky_view.h"

namespace hummock::shade {
namespace {

constexpr double kHotFrom = 11.0, kHotTo = 15.0;  // solar clock; common practice, no source

// One day laid out: when, whence the sun shines, how strong.
struct Plan {
  sun::Date date;
  std::vector<Step> steps;
  std::vector<std::vector<SunRay>> suns;  // one a step, or the disc's
  std::vector<Irradiance> sky;
  std::vector<int> clock_hour;                    // of each step
  std::vector<std::vector<GroundStatus>> sweeps;  // as suns
  double diffuse_kwh_m2 = 0;                      // on an open level surface, the whole day
  double hot_hours = 0;
};

bool hot(const Step& s) {
  return s.solar_clock >= kHotFrom && s.solar_clock <= kHotTo;
}

Plan make_plan(const Place& place, const Settings& settings) {
  Plan plan;
  plan.date = settings.date;
  plan.steps = day_steps(place, settings.date, settings.step_minutes);
  for (const Step& s : plan.steps) {
    plan.suns.push_back(settings.sun_disc ? disc_rays(place, s.sun)
                                          : std::vector<SunRay>{sun_ray(place, s.sun)});
    plan.sky.push_back(clear_sky(settings.sky, place, s.sun));
    plan.clock_hour.push_back(std::stoi(sun::clock_short(place, s.sun.when)));
    plan.diffuse_kwh_m2 += plan.sky.back().diffuse * s.hours / 1000.0;
    if (hot(s)) plan.hot_hours += s.hours;
  }
  return plan;
}

// The beam at one step: the disc's rays averaged.
void beam_of_step(const FastBeam& fast, const Tile& tile, const std::vector<SunRay>& suns,
                  const std::vector<GroundStatus>& sweeps, const sun::Date& date, TileBeam& beam,
                  TileBeam& scratch) {
  fast.tile(tile, suns.front(), date, fast.all(), {false, &sweeps.front()}, beam);
  if (suns.size() == 1) return;
  std::array<float, kTileNodes> sum{};
  for (std::size_t s = 0; s < suns.size(); ++s) {
    fast.tile(tile, suns[s], date, fast.all(), {false, &sweeps[s]}, scratch);
    for (std::size_t k = 0; k < kTileNodes; ++k) sum[k] += scratch.at(k);
  }
  beam.uniform = false;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    beam.each[k] = sum[k] / static_cast<float>(suns.size());
  }
}

// Running sums of a tile's nodes.
struct NodeSums {
  std::array<double, kTileNodes> hours{}, direct{}, shade{}, longest{}, hot_shade{};
};

void add_step(const Plan& plan, std::size_t t, const Tile& tile, const TileBeam& beam,
              double shaded_below, const std::array<unsigned char, kTileNodes>& lying,
              NodeSums& sums, int& shaded) {
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
      shaded += lying[k];
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
    Plan plan = make_plan(place_, settings);
    sweep(plan);
    Day day = lay_out(plan);
    std::vector<std::vector<int>> shaded(tiles_.size());
    over_tiles(tiles_.size(), progress, "shade", from, to,
               [&](std::size_t k) { shaded[k] = one_tile(plan, tiles_[k], day); });
    sum_up(plan, shaded, day);
    day.objects = object_tops(model_, fast_.rays(), plan.steps, plan.suns, date);
    return day;
  }

 private:
  // All steps' suns at once, so that the threads share them.
  void sweep(Plan& plan) const {
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

  Day lay_out(const Plan& plan) const {
    Day day;
    day.date = plan.date;
    day.sun = sun::rise_set(place_, plan.date);
    const auto by_the_sun = [&](double hour) {
      return sun::Instant{day.sun.transit.ut_days + (hour - 12.0) / 24.0};
    };
    day.hot_from = by_the_sun(kHotFrom);
    day.hot_to = by_the_sun(kHotTo);
    day.hot_clock =
        sun::clock_short(place_, day.hot_from) + " to " + sun::clock_short(place_, day.hot_to);
    for (const Step& s : plan.steps) {
      day.times.push_back(s.sun);
      day.hours.push_back(s.hours);
      day.time_labels.push_back(sun::clock_short(place_, s.sun.when));
    }
    for (geom::Raster* r : {&day.sun_hours, &day.longest_shade_h, &day.midday_shade_share,
                            &day.irradiation_kwh_m2, &day.direct_kwh_m2, &day.sky_view}) {
      *r = geom::Raster(grid_);
    }
    if (!settings_.keep_bands) return day;
    day.beams.assign(plan.steps.size(), geom::Raster(grid_));
    for (const int h : plan.clock_hour) {
      if (day.hour_of_clock.empty() || day.hour_of_clock.back() != h)
        day.hour_of_clock.push_back(h);
    }
    day.hour_shade_share.assign(day.hour_of_clock.size(), geom::Raster(grid_));
    return day;
  }

  // Writes the tile's nodes of every layer; returns how many are shaded at each step.
  std::vector<int> one_tile(const Plan& plan, const Tile& tile, Day& day) const {
    std::vector<int> shaded(plan.steps.size(), 0);
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
  void keep_hours(const Plan& plan, const Tile& tile, Day& day) const {
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

  void sum_up(const Plan& plan, const std::vector<std::vector<int>>& shaded, Day& day) const;
  void set_sun_hours(Day& day) const;
  Extreme extreme(const geom::Raster& by, double sign, double tie, const Day& day) const;

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

// The place to lie with the greatest sign·value; of those within `tie` of it the one farthest from
// the fence, which says more than the first corner of an open yard.
Extreme DayAnalysis::extreme(const geom::Raster& by, double sign, double tie,
                             const Day& day) const {
  const auto is_place = [&](std::size_t n) {
    return lying_.node[n] != 0 && !std::isnan(by.values[n]);
  };
  double best = -1e300;
  for (std::size_t n = 0; n < by.values.size(); ++n) {
    if (is_place(n)) best = std::max(best, sign * by.values[n]);
  }
  Extreme spot;
  double farthest = -1.0;
  for (int j = 0; j < grid_.ny; ++j) {
    for (int i = 0; i < grid_.nx; ++i) {
      const std::size_t n = grid_.index(i, j);
      if (!is_place(n) || sign * by.values[n] < best - tie) continue;
      const double d = distance_to_edges(model_.outline, grid_.node(i, j));
      if (d <= farthest) continue;
      farthest = d;
      spot = {grid_.node(i, j), day.sun_hours.at(i, j)};
    }
  }
  return spot;
}

double mean_of(const geom::Raster& r) {
  double sum = 0.0;
  std::size_t n = 0;
  for (const float v : r.values) {
    if (std::isnan(v)) continue;
    sum += v;
    ++n;
  }
  return n > 0 ? sum / static_cast<double>(n) : 0.0;
}

void DayAnalysis::sum_up(const Plan& plan, const std::vector<std::vector<int>>& shaded,
                         Day& day) const {
  double nodes = 0;
  for (const Tile& t : tiles_) {
    for (const unsigned char lies : lying_in(t)) nodes += lies;
  }
  // Every place to lie stands for the same share of the ground the animal can live on.
  const double area = nodes > 0 ? lying_.area_m2 : 0.0;
  const double animals = std::max(1, model_.site.animals);
  day.hottest_shade_m2_per_animal = area / animals;  // without any sun all of it is shade
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    double count = 0;
    for (const auto& tile : shaded) count += tile[t];
    day.shaded_share.push_back(nodes > 0 ? count / nodes : 0.0);
    day.shaded_m2_per_animal.push_back(day.shaded_share.back() * area / animals);
    if (!hot(plan.steps[t])) continue;
    if (day.hottest_at.empty() ||
        day.shaded_m2_per_animal.back() < day.hottest_shade_m2_per_animal) {
      day.hottest_shade_m2_per_animal = day.shaded_m2_per_animal.back();
      day.hottest_at = day.time_labels[t];
    }
  }
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    const Step& s = plan.steps[t];
    day.open_irradiation_kwh_m2 +=
        (plan.sky[t].direct * std::max(0.0, s.sun.towards.z) + plan.sky[t].diffuse) * s.hours /
        1000.0;
  }
  day.irradiation_mean_kwh_m2 = mean_of(day.irradiation_kwh_m2);
  day.sky_view_mean = mean_of(day.sky_view);
  constexpr double kTieHours = 0.01, kTieEnergy = 0.001;
  day.sunniest = extreme(day.sun_hours, 1.0, kTieHours, day);
  day.coolest = extreme(day.irradiation_kwh_m2, -1.0, kTieEnergy, day);
  set_sun_hours(day);
}

// Over the places to lie; none: not known.
void DayAnalysis::set_sun_hours(Day& day) const {
  double sum = 0.0, least = 1e300, most = 0.0;
  std::size_t n = 0;
  for (std::size_t k = 0; k < day.sun_hours.values.size(); ++k) {
    const double v = day.sun_hours.values[k];
    if (std::isnan(v) || lying_.node[k] == 0) continue;
    sum += v;
    least = std::min(least, v);
    most = std::max(most, v);
    ++n;
  }
  const double none = std::numeric_limits<double>::quiet_NaN();
  day.sun_hours_mean = n > 0 ? sum / static_cast<double>(n) : none;
  day.sun_hours_min = n > 0 ? least : none;
  day.sun_hours_max = n > 0 ? most : none;
}

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

geom::Raster beam(const Model& model, const sun::Position& at, const Settings& settings) {
  const Place& place = check_settings(model, settings);
  const FastBeam fast(model);
  const geom::Grid grid = grid_for(model.ground, settings.cell);
  const std::vector<Tile> tiles = ground_tiles(model, grid);
  const std::vector<SunRay> suns =
      settings.sun_disc ? disc_rays(place, at) : std::vector<SunRay>{sun_ray(place, at)};
  const std::vector<GroundStatus> sweeps = fast.sweeps(tiles, grid, suns);
  geom::Raster raster(grid);
  over_tiles(tiles.size(), {}, "shade", 0.0, 1.0, [&](std::size_t n) {
    TileBeam b, scratch;
    beam_of_step(fast, tiles[n], suns, sweeps, settings.date, b, scratch);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tiles[n].inside[k] != 0) raster.values[tiles[n].node(grid, k)] = b.at(k);
    }
  });
  return raster;
}

geom::Raster beam_by_rays(const Model& model, const sun::Position& at, const Settings& settings) {
  const Place& place = check_settings(model, settings);
  const std::vector<Caster> casters = casters_of(model);
  const RayBeam rays(model, casters, std::vector<bool>(casters.size(), false));
  const geom::Grid grid = grid_for(model.ground, settings.cell);
  const std::vector<Tile> tiles = ground_tiles(model, grid);
  const SunRay sun = sun_ray(place, at);
  geom::Raster raster(grid);
  over_tiles(tiles.size(), {}, "shade", 0.0, 1.0, [&](std::size_t n) {
    std::array<float, kTileNodes> b{};
    rays.tile(tiles[n], sun, settings.date, b);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tiles[n].inside[k] != 0) raster.values[tiles[n].node(grid, k)] = b[k];
    }
  });
  return raster;
}

}  // namespace hummock::shade

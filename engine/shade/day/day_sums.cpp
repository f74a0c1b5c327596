#include "engine/shade/day/day_sums.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/shade/day/shade_patches.h"
#include "geometry/plan/polygon.h"

namespace hummock::shade {
namespace {

// Of the day's nodes those that are places to lie and have a value.
bool is_place(const LyingPlaces& lying, const geom::Raster& by, std::size_t n) {
  return lying.node[n] != 0 && !std::isnan(by.values[n]);
}

// The place to lie with the greatest sign·value; of those within `tie` of it the one farthest from
// the fence, which says more than the first corner of an open yard.
struct Best {
  double sign = 1.0, tie = 0.0;
};
class Extremes {
 public:
  Extremes(const Model& model, const LyingPlaces& lying, const geom::Raster& by, Best rule,
           const geom::Raster& hours)
      : model_(model), lying_(lying), by_(by), rule_(rule), hours_(hours) {}

  // Row by row on all threads; of rows that tie the first, as if one had gone over all.
  Extreme find() {
    const auto rows = static_cast<std::size_t>(by_.grid.ny);
    std::vector<double> bests(rows, kNone);
    tbb::parallel_for(std::size_t{0}, rows, [&](std::size_t j) { bests[j] = best_of(j); });
    for (const double b : bests) best_ = std::max(best_, b);
    std::vector<Spot> spots(rows);
    tbb::parallel_for(std::size_t{0}, rows, [&](std::size_t j) { spots[j] = spot_of(j); });
    Spot all;
    for (const Spot& s : spots)
      if (s.off > all.off) all = s;
    return all.at;
  }

 private:
  static constexpr double kNone = -1e300;
  struct Spot {
    double off = -1.0;  // m from the fence
    Extreme at;
  };

  double best_of(std::size_t j) const {
    const auto across = static_cast<std::size_t>(by_.grid.nx);
    double best = kNone;
    for (std::size_t n = j * across; n < (j + 1) * across; ++n)
      if (is_place(lying_, by_, n)) best = std::max(best, rule_.sign * by_.values[n]);
    return best;
  }

  Spot spot_of(std::size_t row) const {
    const int j = static_cast<int>(row);
    Spot spot;
    for (int i = 0; i < by_.grid.nx; ++i) {
      const std::size_t n = by_.grid.index(i, j);
      if (!is_place(lying_, by_, n) || rule_.sign * by_.values[n] < best_ - rule_.tie) continue;
      const double d = distance_to_edges(model_.outline, by_.grid.node(i, j));
      if (d > spot.off) spot = {d, {by_.grid.node(i, j), hours_.at(i, j)}};
    }
    return spot;
  }

  const Model& model_;
  const LyingPlaces& lying_;
  const geom::Raster& by_;
  Best rule_;
  const geom::Raster& hours_;
  double best_ = kNone;
};

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

double count_places(const LyingPlaces& lying, const geom::Raster& by) {
  double count = 0;
  for (std::size_t n = 0; n < by.values.size(); ++n) count += is_place(lying, by, n) ? 1.0 : 0.0;
  return count;
}

// Shaded places at each step, and those of them in patches of shade the body fits.
struct StepShade {
  std::vector<double> nodes, in_patches;
};
StepShade shade_of_steps(const geom::Grid& grid, const LyingPlaces& lying,
                         const std::vector<Tile>& tiles, const std::vector<ShadedPlaces>& shaded,
                         std::size_t steps) {
  const ShadePatches patches(grid, lying.body_length, lying.body_width);
  StepShade out{std::vector<double>(steps, 0.0), std::vector<double>(steps, 0.0)};
  tbb::parallel_for(std::size_t{0}, steps, [&](std::size_t t) {
    NodeBits all = patches.none();
    for (std::size_t k = 0; k < tiles.size(); ++k)
      for (int r = 0; r < kTile && tiles[k].j0 + r < grid.ny; ++r)
        all.set16(tiles[k].i0, tiles[k].j0 + r, shaded[k][t][static_cast<std::size_t>(r)]);
    out.nodes[t] = static_cast<double>(all.count());
    out.in_patches[t] = static_cast<double>(patches.fitting(all).count());
  });
  return out;
}

// Every place to lie stands for the same share of their area.
void set_shade(const DayPlan& plan, double nodes, double area, double animals,
               const StepShade& shade, Day& day) {
  day.hottest_shade_m2_per_animal = area / animals;  // without any sun all of it is shade
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    const auto share = [&](double count) { return nodes > 0 ? count / nodes : 0.0; };
    day.shaded_share.push_back(share(shade.nodes[t]));
    day.shaded_m2_per_animal.push_back(share(shade.in_patches[t]) * area / animals);
    if (!hot(plan.steps[t])) continue;
    if (day.hottest_at.empty() ||
        day.shaded_m2_per_animal.back() < day.hottest_shade_m2_per_animal) {
      day.hottest_shade_m2_per_animal = day.shaded_m2_per_animal.back();
      day.hottest_at = day.time_labels[t];
      day.hottest_when = plan.steps[t].sun.when;
    }
  }
}

// Over the places to lie; none: not known.
void set_sun_hours(const LyingPlaces& lying, Day& day) {
  double sum = 0.0, least = 1e300, most = 0.0;
  std::size_t n = 0;
  for (std::size_t k = 0; k < day.sun_hours.values.size(); ++k) {
    if (!is_place(lying, day.sun_hours, k)) continue;
    const double v = day.sun_hours.values[k];
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

void sum_up(const Model& model, const DayPlan& plan, const LyingPlaces& lying,
            const std::vector<Tile>& tiles, const std::vector<ShadedPlaces>& shaded, Day& day) {
  const double nodes = count_places(lying, day.sun_hours);
  const double area = nodes > 0 ? lying.area_m2 : 0.0;
  const StepShade shade =
      shade_of_steps(day.sun_hours.grid, lying, tiles, shaded, plan.steps.size());
  set_shade(plan, nodes, area, std::max(1, model.site.animals), shade, day);
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    const Step& s = plan.steps[t];
    day.open_irradiation_kwh_m2 +=
        (plan.sky[t].direct * std::max(0.0, s.sun.towards.z) + plan.sky[t].diffuse) * s.hours /
        1000.0;
  }
  day.irradiation_mean_kwh_m2 = mean_of(day.irradiation_kwh_m2);
  day.sky_view_mean = mean_of(day.sky_view);
  constexpr double kTieHours = 0.01, kTieEnergy = 0.001;
  day.sunniest = Extremes(model, lying, day.sun_hours, {1.0, kTieHours}, day.sun_hours).find();
  day.coolest =
      Extremes(model, lying, day.irradiation_kwh_m2, {-1.0, kTieEnergy}, day.sun_hours).find();
  set_sun_hours(lying, day);
}

void take_hot_day(HotDay hot, Day& day) {
  if (!hot.at.empty() && hot.shade_m2_per_animal < day.hottest_shade_m2_per_animal) {
    day.hottest_shade_m2_per_animal = hot.shade_m2_per_animal;
    day.hottest_at = hot.at;
    day.hottest_when = hot.when;
    day.hottest_on = hot.date;
  }
  day.hot_days.push_back(std::move(hot));
}

}  // namespace hummock::shade

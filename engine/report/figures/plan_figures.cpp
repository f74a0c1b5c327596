#include "engine/report/figures/plan_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/draw/small_plans.h"
#include "engine/maps/map_layers.h"
#include "engine/report/chapters/numbers.h"
#include "engine/sight/usable_nodes.h"

namespace hummock::report {
namespace {

using draw::Figure;
using draw::LayerLook;
using geom::Raster;

std::string cell_words(const Raster& raster) {
  return fmt::format("Cells of {:g} m.", raster.grid.cell);
}

// The jump figures a leap plan goes by, with how far they can be leaned on.
std::string jump_words(const Species& animal) {
  return fmt::format("Leap height {}; leap distance {}.", figure_words(animal.leap_height),
                     figure_words(animal.leap_distance));
}

Figure layer(const Model& model, const Raster& raster, const std::string& name,
             const std::string& title, const std::string& unit, const LayerLook& look,
             const std::string& caption) {
  Figure figure = draw::layer_figure(model, raster, name, title, unit, look);
  figure.caption = caption;
  return figure;
}

Raster above_ground(const Model& model, Raster cap) {
  for (std::size_t k = 0; k < cap.values.size(); ++k) {
    cap.values[k] -= static_cast<float>(model.ground.z[k]);
  }
  return cap;
}

double most(const Raster& raster) {
  double value = 0.0;
  for (const float v : raster.values) {
    if (std::isfinite(v)) value = std::max(value, static_cast<double>(v));
  }
  return value;
}

}  // namespace

Figure slope_plan(const Model& model) {
  const Raster raster = maps::compute(model, "slope", {});
  return layer(
      model, raster, "slope", "slope of the ground", "°",
      {.low = 0.0, .high = std::max(10.0, most(raster)), .reversed = true},
      "Slope of the ground in degrees (Horn 1981, 3 × 3 nodes), contours of equal slope. " +
          cell_words(raster));
}

Figure cap_plan(const Model& model, const leap::Settings& settings) {
  CheckOptions options;
  options.leap = settings;
  Raster raster = above_ground(model, maps::compute(model, "cap", options));
  const double high = std::min(most(raster), 4.0 * model.site.species.leap_height.value);
  // Far from the fence the cap is any height: no lines beyond the last colour.
  for (float& v : raster.values) v = std::min(v, static_cast<float>(1.001 * high));
  return layer(
      model, raster, "height-cap", "tallest that may stand here", "m above ground",
      {.low = 0.0, .high = std::max(high, 0.1)},
      fmt::format("Height cap: the tallest, in metres above the ground, that a thing may stand at "
                  "each spot before a leap from its top reaches the barrier's top (lower envelope "
                  "of one paraboloid for each point of the tops; exact at the nodes; margin {:g}). "
                  "Where it says 0, nothing may stand. Colours end at four leap heights. {} {}",
                  settings.required_margin, jump_words(model.site.species), cell_words(raster)));
}

Figure required_leap_plan(const Model& model, const leap::Settings& settings,
                          const Progress& progress) {
  const Raster raster = leap::ground_required_leap(model, settings, progress);
  return layer(
      model, raster, "leap-demand", "leap demand of the ground", "m",
      {.low = 0.0,
       .high = std::max(most(raster), model.site.species.leap_height.value),
       .reversed = true},
      fmt::format(
          "Leap demand: the least leap height, in metres, with which some way from the "
          "living ground comes to each spot; 0 is ground it walks to (easiest-worst-jump "
          "path over surfaces sampled every {:g} m; never above the true demand; the animal "
          "is a point). White: beyond the search's limit of {:g} leap heights. {}",
          settings.resolution, settings.search_limit, jump_words(model.site.species)));
}

Figure sun_hours_plan(const Model& model, const shade::Day& day, const shade::Settings& settings) {
  return layer(model, day.sun_hours, "sun-hours", "hours of direct sun, " + sun::text(day.date),
               "h", {.low = 0.0, .high = std::max(1.0, most(day.sun_hours))},
               fmt::format("Hours of direct sun on {} under a clear sky: rays to the sun every "
                           "{:g} minutes, weighted by what mesh and leaves let through. Least "
                           "{} h, mean {} h, most {} h. {}",
                           sun::text(day.date), settings.step_minutes, number(day.sun_hours_min),
                           number(day.sun_hours_mean), number(day.sun_hours_max),
                           cell_words(day.sun_hours)));
}

namespace {

Raster shaded_at(const Model& model, const sun::Position& at, const shade::Settings& settings) {
  Raster raster = shade::beam(model, at, settings);
  for (float& v : raster.values) v = 1.0F - v;
  return raster;
}

// Six whole hours of the clock, evenly spread between sunrise and sunset.
std::vector<sun::Instant> six_hours(const Place& place, const shade::Day& day) {
  const double midnight = sun::instant(place, day.date, 0.0).ut_days;
  const double first = 24.0 * (day.times.front().when.ut_days - midnight);
  const double last = 24.0 * (day.times.back().when.ut_days - midnight);
  std::vector<sun::Instant> hours;
  double before = -1e9;
  for (int k = 0; k < 6; ++k) {
    const double hour = std::round(first + (last - first) * (k + 0.5) / 6.0);
    if (hour <= before || hour < first || hour > last) continue;
    hours.push_back({midnight + hour / 24.0});
    before = hour;
  }
  return hours;
}

}  // namespace

std::optional<Figure> six_hours_plan(const Model& model, const shade::Day& day) {
  if (day.times.empty() || !model.site.place) return std::nullopt;
  const Place& place = *model.site.place;
  shade::Settings settings;
  settings.date = day.date;
  std::vector<draw::SmallPlan> plans;
  for (const sun::Instant when : six_hours(place, day)) {
    const sun::Position at = sun::position(place, when);
    plans.push_back({fmt::format("{}, sun {:.0f}° high", sun::clock_short(place, when),
                                 at.elevation / geom::kDegree),
                     shaded_at(model, at, settings)});
  }
  if (plans.empty()) return std::nullopt;
  const std::string cells = cell_words(plans.front().raster);
  Figure figure = draw::small_plans(
      model, std::move(plans), 3, "shade-six-hours", "shade on " + sun::text(day.date), "shade",
      {.low = 0.0, .high = 1.0, .contour_count = 0, .reversed = true});
  figure.caption = fmt::format(
      "Shade at six hours of {}, clock of the place: share of the sun's beam stopped, 0 in full "
      "sun "
      "to 1 in full shade (shadows of ground, structures, mesh and leaves; sun by the IAU's "
      "standards through ERFA, refraction included). {}",
      sun::text(day.date), cells);
  return figure;
}

Figure seasons_plan(const Model& model, const std::vector<shade::Day>& days,
                    const shade::Settings& settings) {
  std::vector<draw::SmallPlan> plans;
  plans.reserve(days.size());
  for (const shade::Day& day : days) {
    plans.push_back({fmt::format("{}, mean {} h", sun::text(day.date), number(day.sun_hours_mean)),
                     day.sun_hours});
  }
  const double cell = plans.empty() ? 0.0 : plans.front().raster.grid.cell;
  Figure figure =
      draw::small_plans(model, std::move(plans), 2, "sun-four-days",
                        "hours of sun on four days of the year", "h", {.contour_count = 4});
  figure.caption = fmt::format(
      "Hours of direct sun on the four season days under a clear sky, one scale for all. For speed "
      "these are computed on cells of {:g} m and every {:g} minutes, coarser than the design day.",
      cell, settings.step_minutes);
  return figure;
}

Figure sight_plan(const Model& model, const sight::Result& sight) {
  LayerLook look{.low = 0.0, .high = std::max(1.0, most(sight.seen_by)), .contour_count = 0};
  return layer(
      model, sight.seen_by, "sight", "what guests see", "viewing places", look,
      fmt::format("How many viewing places see each spot of the ground the animal can use, "
                  "at the animal's eye height {:.2f} m (lines of sight from guests' eyes "
                  "every {:g} m; seen where at least {:.0f} % of the light passes). Seen in "
                  "all: {:.0f} % of the usable ground; never seen: {} m². White is ground "
                  "it cannot use. {}",
                  sight::eyes_up(model), sight::Settings{}.eye_spacing,
                  100.0 * sight::Settings{}.seen_at, 100.0 * sight.seen_share,
                  number(sight.unseen_area_m2), cell_words(sight.seen_by)));
}

Figure ponding_plan(const Model& model, const water::Result& water) {
  return layer(
      model, water.pond_depth, "ponding", "where rain would stand", "m",
      {.low = 0.0,
       .high = std::max(0.02, most(water.pond_depth)),
       .contour_count = 4,
       .reversed = true},
      fmt::format("Depth of rain left standing in the hollows of the modelled ground, in "
                  "metres, if nothing seeped away (depressions filled to the level at which "
                  "they run over; drawn waters taken as full). Deepest {} m, {} m² in all. {}",
                  number(water.ponding_m), number(water.ponding_area_m2),
                  cell_words(water.pond_depth)));
}

Figure earthworks_plan(const Model& model, const earthworks::Result& earth) {
  return layer(model, earth.change, "earthworks", "cut and fill", "m", {.two_sided = true},
               fmt::format("Built ground less surveyed ground, in metres: fill above 0, cut below. "
                           "Cut {} m³, fill {} m³ (exact prisms between the two triangulated "
                           "grounds, in place, before earth swells or settles). {}",
                           number(earth.cut_m3), number(earth.fill_m3), cell_words(earth.change)));
}

Figure burrow_plan(const Model& model, const burrows::Result& burrows) {
  return layer(model, burrows.score, "burrow-score", "where a burrow would lie well", "score",
               {.low = 0.0, .high = 1.0},
               "Score 0 to 1 of each spot for a burrow: weighted mean of five scores, shade at the "
               "hot hours, soil depth, slope, ponding and distance to the fence (weights of the "
               "site's [siting], else the program's; common practice, no source). " +
                   cell_words(burrows.score));
}

}  // namespace hummock::report

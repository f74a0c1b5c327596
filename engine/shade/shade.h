// Sun and shade over a day, the season days, or a year. Model: DESIGN §4.5.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/sun/sun.h"
#include "geometry/grid.h"

namespace hummock::shade {

struct Settings {
  sun::Date date{2026, 6, 21};
  double step_minutes = 10.0;  // > 0, <= 120
  double cell = 0.0;           // m; 0 = the ground's cell
  bool sun_disc = false;       // integrate the sun's disc (penumbra)
  double shaded_below =
      0.5;  // a cell counts as shaded when less than this share of the beam arrives
};
struct Spot {
  Vec2 at;
  double hours = 0.0;
};
struct ObjectRow {
  std::string name;
  Vec3 at;
  double sun_hours = 0;
};
struct Day {
  sun::Date date;
  sun::RiseSet sun;
  std::vector<sun::Position> times;      // the steps, sunrise to sunset
  std::vector<std::string> time_labels;  // local clock "13:40"
  std::vector<double> shaded_share;      // 0..1 of the ground inside
  std::vector<double> shaded_m2_per_animal;
  double sun_hours_min = 0, sun_hours_mean = 0, sun_hours_max = 0;
  double hottest_shade_m2_per_animal = 0;  // least over 11–15 h solar time
  Spot sunniest, coolest;
  geom::Raster sun_hours;           // hours of direct beam (weighted by transmittance)
  geom::Raster longest_shade_h;     // longest unbroken shade between sunrise and sunset
  geom::Raster noon_shade_share;    // share of 11–15 h in shade
  geom::Raster irradiation_kwh_m2;  // clear sky, direct + diffuse, on the ground's slope
  geom::Raster sky_view;            // 0..1
  std::vector<ObjectRow> objects;   // object tops, sunning rocks, dens
};
struct Year {
  std::vector<geom::Raster> month_sun_hours;  // 12, hours a day (mean)
  geom::Raster sun_hours;                     // hours in the year
  double error_bound_share = 0;               // of cell-times against rays
};

// Needs site.place; throws InputError naming `place` without it.
Day analyse(const Model& model, const Settings& settings, const Progress& progress = {});
// Beam transmittance 0..1 at every ground node for one sun direction; NaN outside the outline.
geom::Raster beam(const Model& model, const sun::Position& at, const Settings& settings);
// 21 March, 21 June, 23 September, 21 December of the year of settings.date.
std::vector<Day> season_days(const Model& model, const Settings& settings,
                             const Progress& progress = {});
Year year(const Model& model, const Settings& settings, const Progress& progress = {});

}  // namespace hummock::shade

// Sun and shade over a day, the season days, or a year.
//
// The model. The sun is a point at its apparent place (or its disc, `sun_disc`). From every node of
// the ground inside the outline, 1 mm above it, the line to the sun is followed; what it meets
// takes a share of the beam:
//   ground, solid parts          all of it
//   mesh                         T = (1 − d/(p cos α)) (1 − d/(p cos β)), α and β the angle between
//                                the line and the mesh's normal across each family of wires, p the
//                                pitch, d the wire: exact for straight round wires; 0 when negative
//   glass                        all but its openness, whatever the angle
//   crowns, plantings, woods     T = exp(−G a l), G = 0.5 (leaves in all directions: the spherical
//                                distribution, Ross 1981), a the leaf area density, l the true
//                                length of the line inside; a × kBareShare in the bare season
// Ground inside a stone, a house or a den counts as outside: NaN in the layers. Sun hours (least,
// mean, most), the sunniest and the coolest spot, shares of shade and m² for each animal count only
// places to lie (engine/shade/day/lying_places.h, "can live"): no deep water, no ground too steep,
// too low or too narrow, none within a body's width of the boundary. There an animal is in shade
// where both the ground and its back, a body's height above, are (engine/shade/day/over_body.h):
// the shares of shade and m² for each animal count that, the layers are of the ground. A node is
// dark when the ground's triangle over which its line to the sun leaves faces away from the sun
// (the triangle's own normal; the slope that light falls on is by central differences). The horizon
// profile of [place] hides the sun where it stands higher. Terrain outside the fence counts as far
// as `ground.margin` reaches; beyond it the land of the site's raster counts, as the horizon it
// makes (engine/shade/beam/far_horizon.h), and the profile. Sheets are of no thickness; reflected
// light is left out.
//
// Hot days. Where `hot_days` are given the least shade at the hottest hours is the least over the
// day's own and theirs; all else is of the day alone.
//
// Hours. The sun is taken at whole multiples of `step` of the place's clock; each time stands for
// the span to the middle between it and its neighbours, the first and last for the rest to sunrise
// and sunset. A shadow's edge is therefore placed to within half a step.
//
// Irradiation. Clear sky: global by Haurwitz (J. Meteorology 2:154, 1945; 3:123, 1946), split into
// direct and diffuse by Erbs, Klein & Duffie (Solar Energy 28:293, 1982); or both by the simplified
// Solis model (Ineichen, Solar Energy 82:758, 2008). Direct falls on the ground's slope through the
// transmittance; diffuse is isotropic (Hottel & Woertz 1942, cited by pvlib), weighted by the sky
// view. Real days have clouds: these are upper figures for comparing places, not a climate.
//
// Sky view. Share of an isotropic sky's light that reaches the ground's slope, 1 for an open level
// surface; summed over kSkyDirections directions (engine/shade/sky/sky_view.h says how far off).
//
// Shares and areas. Every place to lie counts alike, so a share of the yard is off
// by at most perimeter · cell / (2 · area): 2 % for 10 × 10 m at 0.1 m, and less as the cell
// shrinks.
//
// Error. The fast path gives the transmittance of the rays at every node but those within a
// millimetre of a shadow's edge (tested); rays are Embree's, robust, float32.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"
#include "engine/sun/sun.h"
#include "geometry/plan/grid.h"

namespace hummock::shade {

enum class SkyModel { haurwitz, solis };

// Which nodes were dark at each step of a day (engine/shade/day/dark_ground.h).
struct DarkGround;
// What is known of a yard's sky view, by state of the leaves (engine/shade/sky/sky_views.h).
struct SkyViews;
// The beam at each step of a day (engine/shade/day/kept_beams.h).
class KeptBeams;

struct Settings {
  sun::Date date{2026, 6, 21};
  // Further days of the hot season: the least shade at the hottest hours is the least of all.
  std::vector<sun::Date> hot_days;
  double step_minutes = 10.0;  // > 0, <= 120
  // Without the sky's light the irradiation is the beam's alone: for whoever reads only hours and
  // shade of season days, at a third of the time.
  bool sky_light = true;
  double cell = 0.0;      // m; 0 = the ground's cell
  bool sun_disc = false;  // integrate the sun's disc (penumbra)
  double shaded_below =
      0.5;  // a cell counts as shaded when less than this share of the beam arrives
  SkyModel sky = SkyModel::haurwitz;
  bool keep_bands = false;  // fill Day::beams and Day::hour_shade_share
  bool every_step = false;  // of a year: each step's own sun, none moved to the grid (slow)
};
struct Extreme {
  Vec2 at;
  double hours = 0.0;
};
// The top of an object or den: the part of its surface that looks up (within 45° of level).
struct ObjectRow {
  std::string name;
  Vec3 at;               // its highest point
  double sun_hours = 0;  // mean over the top
};
// The hottest hours of one more day.
struct HotDay {
  sun::Date date;
  double shade_m2_per_animal = 0;  // least over 11–15 h solar time
  std::string at;                  // local clock of that least
  std::optional<sun::Instant> when;
};
struct Day {
  sun::Date date;
  sun::RiseSet sun;
  std::vector<sun::Position> times;          // the steps, sunrise to sunset
  std::vector<double> hours;                 // each step stands for
  std::vector<std::string> time_labels;      // local clock "13:40"
  std::vector<double> shaded_share;          // 0..1 of the ground it can lie on, in shade there
  std::vector<double> shaded_m2_per_animal;  // of places to lie, in patches of shade it fits
  double sun_hours_min = 0, sun_hours_mean = 0, sun_hours_max = 0;  // NaN: no place to lie
  sun::Instant hot_from, hot_to;  // 11 and 15 h by the sun (the hour angle), and by the clock:
  std::string hot_clock;          // "12:02 to 16:02"
  double hottest_shade_m2_per_animal = 0;  // least over 11–15 h solar time, of all hot_days too
  std::string hottest_at;                  // local clock of that least
  std::optional<sun::Date> hottest_on;     // where that is another day
  std::vector<HotDay> hot_days;            // one for each of Settings::hot_days
  std::optional<sun::Instant> hottest_when;
  Extreme sunniest, coolest;  // coolest: least irradiation
  double irradiation_mean_kwh_m2 = 0;
  double open_irradiation_kwh_m2 = 0;  // of an open level surface
  double sky_view_mean = 0;
  geom::Raster sun_hours;           // hours of direct beam (weighted by transmittance)
  geom::Raster longest_shade_h;     // longest unbroken shade between sunrise and sunset
  geom::Raster midday_shade_share;  // share of 11–15 h solar time in shade (1 without any sun)
  geom::Raster irradiation_kwh_m2;  // clear sky, direct + diffuse, on the ground's slope
  geom::Raster direct_kwh_m2;       // the direct part of it
  geom::Raster sky_view;            // 0..1
  std::vector<ObjectRow> objects;   // object tops, sunning rocks, dens
  // With Settings::keep_bands: the beam at each of `times`, and the share of shade in each hour of
  // the clock that has sun (`hour_of_clock` 0..23).
  std::shared_ptr<const KeptBeams> beams;
  std::vector<int> hour_of_clock;
  std::vector<geom::Raster> hour_shade_share;
  std::shared_ptr<const DarkGround> dark;  // of `analyse`, for `with_another_body`
  std::shared_ptr<const SkyViews> sky;     // for another day of the same model
};
// A whole year. The suns of its steps are moved to a grid of declination and hour angle, their
// hours split between the grid suns about them (engine/shade/year/sun_grid.h: the grid, its
// error), unless `every_step` or the steps are few. Work is shared between suns that stand close
// together in the sky: for a patch of sky and a block of ground it is first asked, with certain
// bounds, what could come between them; only that is looked at sun by sun. For its suns the result
// is the same as a day's (same error against rays). `error_bound_share` bounds what the hours are
// off by from rays at every step: summed over the cells, as a share of the hours with the sun up.
struct Year {
  int year = 0;
  std::vector<geom::Raster> month_sun_hours;  // 12, hours a day (mean)
  geom::Raster sun_hours;                     // hours in the year
  double error_bound_share = 0;               // of the hours, against rays at every step
  std::size_t sun_positions = 0;              // steps in the year with the sun up
  std::size_t suns_looked_at = 0;             // grid suns, or steps above the horizon profile
};

// The day on which the shade of the hottest hours is least, and its clock: "13:00 on 2026-07-01",
// or the clock alone where that is the day itself.
std::string hottest_in_words(const Day& day);

// Needs site.place; throws InputError naming `place` without it. `sky`: Day::sky of another day of
// this model; what it knows at this cell is not worked out again.
Day analyse(const Model& model, const Settings& settings, const Progress& progress = {},
            const std::shared_ptr<const SkyViews>& sky = {});
// Of another animal on the same site: with the day's steps, or the hot hours alone.
enum class Steps { all, hot };
// The figures of `analyse` for the same site with another animal, whose ground is then another:
// what light falls where is taken from `known`, a result of `analyse` for this site with these
// settings. Tops of objects are left out; with the hot steps alone what is told step by step too.
Day with_another_body(const Model& model, const Settings& settings, const Day& known,
                      Steps steps = Steps::all, const Progress& progress = {});
// Beam transmittance 0..1 at every ground node for one sun direction; NaN outside the outline.
geom::Raster beam(const Model& model, const sun::Position& at, const Settings& settings);
// The same with a ray from every node: the reference, and slower.
geom::Raster beam_by_rays(const Model& model, const sun::Position& at, const Settings& settings);
// 21 March, 21 June, 23 September, 21 December of the year of settings.date.
std::vector<Day> season_days(const Model& model, const Settings& settings,
                             const Progress& progress = {},
                             const std::shared_ptr<const SkyViews>& sky = {});
Year year(const Model& model, const Settings& settings, const Progress& progress = {});

}  // namespace hummock::shade

#include "engine/check/layers.h"

#include "engine/leap/rows/figure_premises.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/terrain_metrics.h"

namespace hummock {
namespace {

using geom::Raster;
using M = const Model&;
using S = const EffectiveSettings&;
using P = const Progress&;

// Keeps only the nodes inside the outline.
Raster inside_only(const Model& model, Raster raster) {
  const geom::Grid& g = raster.grid;
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      if (!geom::contains(model.outline, g.node(i, j))) raster.at(i, j) = Raster::kNone;
    }
  }
  return raster;
}

Raster height(const Model& model) {
  Raster raster(model.ground.grid);
  for (std::size_t k = 0; k < raster.values.size(); ++k) {
    raster.values[k] = static_cast<float>(model.ground.z[k]);
  }
  return inside_only(model, std::move(raster));
}

Raster slope_degrees(const Model& model) {
  Raster raster = geom::slope(model.ground);
  for (float& v : raster.values) v = static_cast<float>(v / geom::kDegree);
  return raster;
}

shade::Day day(const Model& model, const EffectiveSettings& settings, const Progress& progress) {
  shade::Settings of_the_day = settings.shade;
  of_the_day.hot_days.clear();
  return shade::analyse(model, of_the_day, progress);
}

Raster shaded_now(const Model& model, const EffectiveSettings& settings) {
  if (!model.site.place) {
    throw InputError({model.site.file.string(), 0, "place"}, "no such table",
                     "[place] with latitude and longitude, for the sun");
  }
  const sun::Position at =
      sun::position(*model.site.place,
                    sun::instant(*model.site.place, settings.shade.date, settings.clock_hours));
  Raster raster = shade::beam(model, at, settings.shade);
  for (float& v : raster.values) v = 1.0F - v;  // NaN stays NaN
  return raster;
}

// Of a day's sun and shade.
Layer of_day(const char* name, const char* title, const char* unit, Raster shade::Day::*member) {
  return {{.name = name, .title = title, .unit = unit, .of_the_day = true},
          [member](M m, S s, P p) { return day(m, s, p).*member; }};
}

std::vector<Assumption> careful_figures(const Model& model) {
  std::vector<Assumption> list;
  for (const leap::Premise& p : leap::figure_premises(model)) list.push_back(p.told);
  return list;
}

}  // namespace

std::vector<Layer> relief_layers() {
  return {
      {{"height", "Height of the ground", "m"}, [](M m, S, P) { return height(m); }},
      {{"slope", "Slope (Horn)", "°"}, [](M m, S, P) { return inside_only(m, slope_degrees(m)); }},
      {{"ruggedness", "Terrain ruggedness index (Riley)", "m"},
       [](M m, S, P) { return inside_only(m, geom::ruggedness(m.ground)); }}};
}

std::vector<Layer> leap_layers() {
  return {{{"demand", "Leap demand", "m"},
           [](M m, S s, P p) { return leap::ground_required_leap(m, s.leap, p); },
           careful_figures},
          {{"cap", "Height cap: tallest that may stand here", "m"},
           [](M m, S s, P) { return inside_only(m, leap::height_cap(m, s.leap.required_margin)); },
           careful_figures}};
}

std::vector<Layer> shade_layers() {
  using D = shade::Day;
  Layer sky = of_day("sky_view", "Share of the sky seen", "1", &D::sky_view);
  sky.of_the_day = false;
  return {
      {{.name = "shade",
        .title = "Share of the sun's beam stopped",
        .unit = "1",
        .of_the_day = true,
        .of_the_hour = true},
       [](M m, S s, P) { return shaded_now(m, s); }},
      of_day("sun_hours", "Hours of direct sun", "h", &D::sun_hours),
      of_day("noon_shade", "Share of 11–15 h in shade", "1", &D::midday_shade_share),
      of_day("longest_shade", "Longest unbroken shade", "h", &D::longest_shade_h),
      of_day("irradiation", "Clear-sky irradiation of the day", "kWh/m²", &D::irradiation_kwh_m2),
      sky};
}

std::vector<Layer> sight_layers() {
  return {{{"seen", "Viewing places that see it", "no."}, [](M m, S s, P p) {
             sight::Settings settings = s.sight;
             settings.screens = false;
             return sight::analyse(m, settings, p).seen_by;
           }}};
}

std::vector<Layer> water_layers() {
  return {{{"ponding", "Depth of ponded rain", "m"},
           [](M m, S, P) { return water::analyse(m).pond_depth; }}};
}

std::vector<Layer> earthworks_layers() {
  return {{{.name = "change", .title = "Fill (+) and cut (−)", .unit = "m", .two_sided = true},
           [](M m, S, P) { return earthworks::analyse(m).change; }}};
}

std::vector<Layer> burrow_layers() {
  return {
      {{.name = "burrow", .title = "How well a burrow would lie", .unit = "1", .of_the_day = true},
       [](M m, S s, P p) { return burrows::analyse(m, day(m, s, p), water::analyse(m)).score; }}};
}

const std::vector<const Layer*>& all_layers() {
  static const std::vector<const Layer*> list = [] {
    std::vector<const Layer*> out;
    for (const Analysis& a : analyses())
      for (const Layer& layer : a.layers) out.push_back(&layer);
    return out;
  }();
  return list;
}

}  // namespace hummock

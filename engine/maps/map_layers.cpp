#include "engine/maps/map_layers.h"

#include <functional>

#include "geometry/terrain/terrain_metrics.h"

namespace hummock::maps {
namespace {

using geom::Raster;

struct Source {
  LayerInfo info;
  std::function<Raster(const Model&, const CheckOptions&, const Progress&)> make;
};

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

shade::Day day(const Model& model, const CheckOptions& options, const Progress& progress) {
  return shade::analyse(model, resolve(model.site, options).shade, progress);
}

Raster shaded_now(const Model& model, const CheckOptions& options) {
  if (!model.site.place) {
    throw InputError({model.site.file.string(), 0, "place"}, "no such table",
                     "[place] with latitude and longitude, for the sun");
  }
  const shade::Settings settings = resolve(model.site, options).shade;
  const sun::Position at = sun::position(
      *model.site.place, sun::instant(*model.site.place, settings.date, options.clock_hours));
  Raster raster = shade::beam(model, at, settings);
  for (float& v : raster.values) v = 1.0F - v;  // NaN stays NaN
  return raster;
}

const std::vector<Source>& sources() {
  using M = const Model&;
  using O = const CheckOptions&;
  using P = const Progress&;
  static const std::vector<Source> list{
      {{"height", "Height of the ground", "m"}, [](M m, O, P) { return height(m); }},
      {{"slope", "Slope (Horn)", "°"}, [](M m, O, P) { return inside_only(m, slope_degrees(m)); }},
      {{"ruggedness", "Terrain ruggedness index (Riley)", "m"},
       [](M m, O, P) { return inside_only(m, geom::ruggedness(m.ground)); }},
      {{"demand", "Leap demand", "m"},
       [](M m, O o, P p) { return leap::ground_required_leap(m, resolve(m.site, o).leap, p); }},
      {{"cap", "Height cap: tallest that may stand here", "m"},
       [](M m, O o, P) {
         return inside_only(m, leap::height_cap(m, resolve(m.site, o).leap.required_margin));
       }},
      {{"shade", "Share of the sun's beam stopped", "1"},
       [](M m, O o, P) { return shaded_now(m, o); }},
      {{"sun_hours", "Hours of direct sun", "h"},
       [](M m, O o, P p) { return day(m, o, p).sun_hours; }},
      {{"noon_shade", "Share of 11–15 h in shade", "1"},
       [](M m, O o, P p) { return day(m, o, p).midday_shade_share; }},
      {{"longest_shade", "Longest unbroken shade", "h"},
       [](M m, O o, P p) { return day(m, o, p).longest_shade_h; }},
      {{"irradiation", "Clear-sky irradiation of the day", "kWh/m²"},
       [](M m, O o, P p) { return day(m, o, p).irradiation_kwh_m2; }},
      {{"sky_view", "Share of the sky seen", "1"},
       [](M m, O o, P p) { return day(m, o, p).sky_view; }},
      {{"seen", "Viewing places that see it", "no."},
       [](M m, O o, P p) { return sight::analyse(m, resolve(m.site, o).sight, p).seen_by; }},
      {{"ponding", "Depth of ponded rain", "m"},
       [](M m, O, P) { return water::analyse(m).pond_depth; }},
      {{"burrow", "How well a burrow would lie", "1"},
       [](M m, O o, P p) { return burrows::analyse(m, day(m, o, p), water::analyse(m)).score; }},
      {{"change", "Fill (+) and cut (−)", "m"},
       [](M m, O, P) { return earthworks::analyse(m).change; }},
  };
  return list;
}

}  // namespace

const std::vector<LayerInfo>& layers() {
  static const std::vector<LayerInfo> infos = [] {
    std::vector<LayerInfo> list;
    for (const Source& s : sources()) list.push_back(s.info);
    return list;
  }();
  return infos;
}

Raster compute(const Model& model, const std::string& layer, const CheckOptions& options,
               const Progress& progress) {
  std::string allowed;
  for (const Source& s : sources()) {
    if (s.info.name == layer) return s.make(model, options, progress);
    allowed += (allowed.empty() ? "" : ", ") + s.info.name;
  }
  throw InputError({"", 0, "LAYER"}, "\"" + layer + "\"", allowed);
}

}  // namespace hummock::maps

// Earth moved, water, planting.
#include <fmt/format.h>

#include <cmath>

#include "engine/earthworks/earthworks.h"
#include "engine/quantities/schedule_steps.h"
#include "geometry/mesh/prism_volume.h"

namespace hummock::quantities {
namespace {

const char* to_string(Soil soil) {
  switch (soil) {
    case Soil::sand:
      return "sand";
    case Soil::loam:
      return "loam";
    case Soil::clay:
      return "clay";
    case Soil::unknown:
      break;
  }
  return "earth";
}

void add_earth(const Model& model, std::vector<Row>& rows) {
  const geom::PrismSums s = geom::prism_sums(earthworks::bare_ground(model), model.surveyed);
  const std::string soil = to_string(model.site.ground.soil);
  const auto add = [&](const std::string& what, double amount, const char* note, const char* key) {
    if (amount > 1e-9) rows.push_back({soil + what, "ground", amount, "m³", note, key});
  };
  add(", cut", s.below_m3, "in place, before it swells", "cut_m3");
  add(", fill", s.above_m3, "in place, compacted", "fill_m3");
  add(" to bring in", s.above_m3 - s.below_m3, "fill less cut", "bring_in_m3");
  add(" to take away", s.below_m3 - s.above_m3, "cut less fill", "take_away_m3");
}

void add_water(const Model& model, std::vector<Row>& rows) {
  for (const Water& w : model.site.waters) {
    if (!w.level) continue;
    const geom::PrismSums s =
        geom::prism_sums(geom::ground_mesh(model.ground, w.outline), *w.level);
    rows.push_back({"water surface", w.name, s.below_area_m2, "m²", "", "water_m2"});
    rows.push_back(
        {"water", w.name, s.below_m3, "m³", w.drain ? "with a drain" : "no drain", "water_m3"});
    rows.push_back({"basin, lined area", w.name,
                    geom::surface_sums(model.ground, w.outline, 0.0).surface_area_m2, "m²",
                    "the bed inside the drawn outline", "basin_m2"});
  }
}

}  // namespace

void add_ground(const Model& model, std::vector<Row>& rows) {
  add_earth(model, rows);
  add_water(model, rows);
  for (const Planting& p : model.site.plantings)
    rows.push_back({fmt::format("planting, {:.2f} m high, {:.0f} % cover", p.height, p.cover * 1e2),
                    p.name, std::abs(geom::signed_area(p.outline)), "m²", "in plan",
                    "planting_m2"});
}

}  // namespace hummock::quantities

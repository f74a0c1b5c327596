#include "engine/stations/stations_json.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/grammar/tables.h"

namespace hummock::stations {
namespace {

using nlohmann::json;

json finite(double value) {
  return std::isfinite(value) ? json(value) : json(nullptr);
}

json json_of(const StationRow& row, const Model& model) {
  const Station& s = model.site.stations[static_cast<std::size_t>(row.station)];
  const Vec3 at = model.to_site(row.at);
  json out{{"name", s.name},           {"kind", word_of(static_cast<std::size_t>(s.kind))},
           {"at", {at.x, at.y, at.z}}, {"on", s.on},
           {"set_out", row.set_out},   {"reached", row.reached},
           {"inside", row.inside},     {"guests_m", finite(row.guests_m)}};
  if (row.clearance_m) {
    out["clearance_m"] = *row.clearance_m;
    out["leapt_at"] = row.leapt_at;
    out["guard"] = s.guard;
  }
  return out;
}

void put_kind(const Result& result, std::size_t k, int animals, Figures& figures) {
  const KindRow& kind = result.kinds[k];
  const std::string key = "stations." + key_of(k);
  figures[key + "_count"].value = kind.counts;
  if (kind.drawn == 0) return;
  if (is_used(static_cast<StationKind>(k)))
    figures[key + "_per_animal"].value = static_cast<double>(kind.counts) / animals;
  if (std::isfinite(kind.apart_m)) figures[key + "_apart_m"].value = kind.apart_m;
}

// The name of the row that `least` picks.
template <class Value>
std::string nearest(const Result& result, const Model& model, const Value& value) {
  const auto row = std::min_element(
      result.rows.begin(), result.rows.end(),
      [&](const StationRow& a, const StationRow& b) { return value(a) < value(b); });
  return quoted(model.site.stations[static_cast<std::size_t>(row->station)].name);
}

void put_guests(const Result& result, const Model& model, Figures& figures) {
  if (!result.guests) return;  // where guests stand nobody said
  figures["stations.in_guests_reach_count"].value = result.in_guests_reach;
  Figure& least = figures["stations.to_guests_m"];
  least.value = result.guests_m;
  least.where = nearest(result, model, [](const StationRow& row) { return row.guests_m; });
}

}  // namespace

const std::string& word_of(std::size_t kind) {
  return grammar::station_table().find("kind")->words.at(kind);
}
std::string key_of(std::size_t kind) {
  std::string key = word_of(kind);
  std::replace(key.begin(), key.end(), ' ', '_');
  return key;
}

json to_json(const Result& result, const Model& model) {
  json out{{"stations", json::array()},
           {"kinds", json::object()},
           {"unreached_count", result.unreached},
           {"food_to_water_m", finite(result.food_to_water_m)},
           {"to_guests_m", finite(result.guests_m)},
           {"in_guests_reach_count", result.in_guests_reach},
           {"unguarded_lamps_count", result.unguarded},
           {"unguarded_lamps_in_leap_count", result.unguarded_in_leap},
           {"lamp_clearance_m", finite(result.lamp_clearance_m)}};
  for (const StationRow& row : result.rows) out["stations"].push_back(json_of(row, model));
  for (std::size_t k = 0; k < kKinds; ++k)
    out["kinds"][key_of(k)] = {{"drawn", result.kinds[k].drawn},
                               {"counts", result.kinds[k].counts},
                               {"apart_m", finite(result.kinds[k].apart_m)}};
  return out;
}

void add_figures(const Result& result, const Model& model, Figures& figures) {
  for (std::size_t k = 0; k < kKinds; ++k) put_kind(result, k, model.site.animals, figures);
  if (result.rows.empty()) return;
  figures["stations.unreached_count"].value = result.unreached;
  if (std::isfinite(result.food_to_water_m))
    figures["stations.food_to_water_m"].value = result.food_to_water_m;
  put_guests(result, model, figures);
  if (!std::isfinite(result.lamp_clearance_m)) return;
  figures["stations.unguarded_lamps_count"].value = result.unguarded;
  figures["stations.unguarded_lamps_in_leap_count"].value = result.unguarded_in_leap;
  Figure& clear = figures["stations.lamp_clearance_m"];
  clear.value = result.lamp_clearance_m;
  clear.where = nearest(result, model, [](const StationRow& row) {
    return row.clearance_m.value_or(std::numeric_limits<double>::infinity());
  });
}

}  // namespace hummock::stations

#include "engine/houses/houses_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace hummock::houses {
namespace {

nlohmann::json or_null(const std::optional<double>& v) {
  return v ? nlohmann::json(*v) : nlohmann::json(nullptr);
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model&) {
  nlohmann::json list = nlohmann::json::array();
  for (const Row& row : result.list)
    list.push_back(
        {{"name", row.name},
         {"floor_m2", row.floor_m2},
         {"height_m", row.height_m},
         {"volume_m3", row.volume_m3},
         {"low_c", or_null(row.low_c)},
         {"high_c", or_null(row.high_c)},
         {"hides", row.hides},
         {"climb_places", row.climb_places},
         {"vents_guarded", row.vents_guarded},
         {"light_shortest_h",
          or_null(row.light ? std::optional(row.light->shortest) : std::nullopt)},
         {"light_longest_h", or_null(row.light ? std::optional(row.light->longest) : std::nullopt)},
         {"faults", row.faults}});
  return {{"list", list},
          {"floor_m2", result.floor_m2},
          {"volume_m3", result.volume_m3},
          {"hides", result.hides},
          {"climb_places", result.climb_places},
          {"outdoor_low_c", or_null(result.outdoor_low_c)},
          {"hours_below_low", or_null(result.hours_below_low)},
          {"climate_hours", result.climate_hours},
          {"coldest_c", or_null(result.coldest_c)},
          {"faults", result.faults}};
}

// Heights and temperatures are those of the worst house, so that a row of the brief on them holds
// for all.
void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto add = [&](const char* key, std::optional<double> value, std::string where = {}) {
    Figure figure;
    figure.value = value;
    figure.where = std::move(where);
    figures[std::string("houses.") + key] = figure;
  };
  add("count", static_cast<double>(result.list.size()));
  add("floor_m2", result.floor_m2);
  add("volume_m3", result.volume_m3);
  add("hides", result.hides);
  add("climb_places", result.climb_places);
  add("hours_below_low", result.hours_below_low);
  add("outdoor_low_c", result.outdoor_low_c);
  add("coldest_c", result.coldest_c);
  const Row *lowest = nullptr, *coldest = nullptr, *hottest = nullptr;
  double unguarded = 0.0, unlit = 0.0;
  const Row *darkest = nullptr, *brightest = nullptr;
  for (const Row& row : result.list) {
    if (lowest == nullptr || row.height_m < lowest->height_m) lowest = &row;
    if (row.low_c && (coldest == nullptr || *row.low_c < *coldest->low_c)) coldest = &row;
    if (row.high_c && (hottest == nullptr || *row.high_c > *hottest->high_c)) hottest = &row;
    unguarded += row.vents_guarded ? 0.0 : 1.0;
    unlit += row.light ? 0.0 : 1.0;
    if (!row.light) continue;
    if (darkest == nullptr || row.light->shortest < darkest->light->shortest) darkest = &row;
    if (brightest == nullptr || row.light->longest > brightest->light->longest) brightest = &row;
  }
  if (unlit == 0.0 && darkest != nullptr) {  // what is not known of one house is not met for all
    add("light_shortest_h", darkest->light->shortest, darkest->name);
    add("light_longest_h", brightest->light->longest, brightest->name);
  }
  add("unlit", unlit);
  if (lowest != nullptr) add("height_m", lowest->height_m, lowest->name);
  if (coldest != nullptr) add("low_c", coldest->low_c, coldest->name);
  if (hottest != nullptr) add("high_c", hottest->high_c, hottest->name);
  add("unguarded", unguarded);
}

}  // namespace hummock::houses

#include "engine/earthworks/earthworks_json.h"

#include <nlohmann/json.hpp>
#include <utility>

namespace hummock::earthworks {
namespace {

std::vector<std::pair<const char*, double>> scalars(const Result& r) {
  return {{"cut_m3", r.cut_m3},
          {"fill_m3", r.fill_m3},
          {"balance_m3", r.balance_m3},
          {"cut_area_m2", r.cut_area_m2},
          {"fill_area_m2", r.fill_area_m2},
          {"deepest_cut_m", r.deepest_cut_m},
          {"highest_fill_m", r.highest_fill_m},
          {"repose_deg", r.repose_deg},
          {"steepest_deg", r.steepest_deg},
          {"too_steep_area_m2", r.too_steep_area_m2}};
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model&) {
  nlohmann::json out;
  for (const auto& [key, value] : scalars(result)) out[key] = value;
  out["repose_source"] = result.repose_source;
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  for (const auto& [key, value] : scalars(result)) {
    Figure figure;
    figure.value = value;
    figures[std::string("earthworks.") + key] = figure;
  }
}

}  // namespace hummock::earthworks

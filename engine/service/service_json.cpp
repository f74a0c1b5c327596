#include "engine/service/service_json.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace hummock::service {
namespace {

nlohmann::json or_null(double value) {
  return std::isfinite(value) ? nlohmann::json(value) : nlohmann::json(nullptr);
}

template <class Rows, class Test>
double count(const Rows& rows, const Test& test) {
  return static_cast<double>(std::count_if(rows.begin(), rows.end(), test));
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json out{{"reached_area_m2", result.reached_area_m2},
                     {"reached_share", result.reached_share},
                     {"narrowest_gate_m", or_null(result.narrowest_gate_m)},
                     {"gates", nlohmann::json::array()},
                     {"places", nlohmann::json::array()}};
  for (const GateRow& row : result.gates)
    out["gates"].push_back({{"name", row.name},
                            {"width_m", row.width_m},
                            {"wide_enough", row.wide_enough},
                            {"reaches", row.reaches},
                            {"barrow_comes", row.barrow.goes()},
                            {"shared", row.shared}});
  for (const Place& place : result.places) {
    const Vec2 at = model.to_site(place.at);
    out["places"].push_back({{"name", place.name},
                             {"kind", place.kind},
                             {"at", {at.x, at.y}},
                             {"reached", place.reached},
                             {"shared", place.shared},
                             {"away_m", or_null(place.away_m)}});
  }
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto put = [&](const char* key, double value) {
    if (std::isfinite(value)) figures[std::string("service.") + key].value = value;
  };
  put("reached_area_m2", result.reached_area_m2);
  put("reached_share", result.reached_share);
  put("narrowest_gate_m", result.narrowest_gate_m);
  put("gates_too_narrow", count(result.gates, [](const GateRow& g) { return !g.wide_enough; }));
  put("cut_off_count", count(result.places, [](const Place& p) { return !p.reached; }));
  put("shared_gates", count(result.gates, [](const GateRow& g) { return g.shared; }));
  put("shared_places", count(result.places, [](const Place& p) { return p.shared; }));
}

std::vector<LayerInfo> layers(const Result&) {
  return {{"barrow", "Where a barrow comes (1)", "1"}};
}

geom::Raster layer(const Result& result, const std::string&) {
  return result.reached;
}

}  // namespace hummock::service

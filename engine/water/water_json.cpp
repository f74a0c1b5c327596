#include "engine/water/water_json.h"

#include <nlohmann/json.hpp>

namespace hummock::water {
namespace {

nlohmann::json place(const Model& model, Vec2 p) {
  const Vec2 at = model.to_site(p);
  return {at.x, at.y};
}

nlohmann::json basin(const BasinRow& b, const Model& model) {
  return {{"name", b.name},
          {"level_m", b.level_m},
          {"deepest_m", b.deepest_m},
          {"deepest_at", place(model, b.deepest_at)},
          {"area_m2", b.area_m2},
          {"volume_m3", b.volume_m3},
          {"steepest_side_deg", b.steepest_side_deg},
          {"easiest_side_deg", b.easiest_side_deg},
          {"easiest_at", place(model, b.easiest_at)},
          {"can_climb_out", b.can_climb_out},
          {"wading_route_deepest_m", b.wading_route_deepest_m},
          {"deeper_than_wade", b.deeper_than_wade},
          {"parts_the_yard", b.parts_the_yard},
          {"rim_m", b.rim_m},
          {"holds_water", b.holds_water},
          {"lies_beyond", b.lies_beyond}};
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  auto basins = nlohmann::json::array(), ponds = nlohmann::json::array();
  for (const BasinRow& b : result.basins) basins.push_back(basin(b, model));
  for (const Pond& p : result.ponds)
    ponds.push_back({{"at", place(model, p.at)},
                     {"depth_m", p.depth_m},
                     {"area_m2", p.area_m2},
                     {"volume_m3", p.volume_m3},
                     {"drained", p.drained}});
  return {{"deepest_m", result.deepest_m},
          {"ponding_m", result.ponding_m},
          {"ponding_area_m2", result.ponding_area_m2},
          {"ponding_volume_m3", result.ponding_volume_m3},
          {"basins", basins},
          {"ponds", ponds}};
}

// Beside the totals: water.climb_out_share is the share of basins the animal can climb out of (1
// when there are none), water.easiest_side_deg the basin that is hardest to leave.
void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto add = [&](const char* key, double value, std::string where = {}) {
    Figure figure;
    figure.value = value;
    figure.where = std::move(where);
    figures[std::string("water.") + key] = figure;
  };
  double area = 0.0, volume = 0.0, climb = 0.0;
  const BasinRow *hardest = nullptr, *deepest = nullptr;
  for (const BasinRow& b : result.basins) {
    area += b.area_m2;
    volume += b.volume_m3;
    climb += b.can_climb_out ? 1.0 : 0.0;
    if (hardest == nullptr || b.easiest_side_deg > hardest->easiest_side_deg) hardest = &b;
    if (deepest == nullptr || b.deepest_m > deepest->deepest_m) deepest = &b;
  }
  add("deepest_m", result.deepest_m, deepest != nullptr ? deepest->name : "");
  add("ponding_m", result.ponding_m);
  add("ponding_area_m2", result.ponding_area_m2);
  add("ponding_volume_m3", result.ponding_volume_m3);
  add("area_m2", area);
  add("volume_m3", volume);
  add("climb_out_share",
      result.basins.empty() ? 1.0 : climb / static_cast<double>(result.basins.size()));
  if (hardest != nullptr) add("easiest_side_deg", hardest->easiest_side_deg, hardest->name);
}

}  // namespace hummock::water

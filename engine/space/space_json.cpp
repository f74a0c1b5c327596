#include "engine/space/space_json.h"

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <utility>

namespace hummock::space {
namespace {

std::vector<std::pair<const char*, double>> scalars(const Result& r) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  return {{"plan_area_m2", r.plan_area_m2},
          {"surface_area_m2", r.surface_area_m2},
          {"usable_area_m2", r.usable_area_m2},
          {"outdoor_area_m2", r.outdoor_area_m2},
          {"volume_m3", r.volume_known ? r.volume_m3 : none},
          {"furniture_m3", r.volume_known ? r.furniture_m3 : none},
          {"least_headroom_m", r.least_headroom_m},
          {"mean_headroom_m", r.mean_headroom_m},
          {"roofed_share", r.roofed_share},
          {"guest_view_share", r.guest_view_share},
          {"boundary_length_m", r.boundary_length_m}};
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json out;
  for (const auto& [key, value] : scalars(result)) {
    if (std::isfinite(value))
      out[key] = value;
    else
      out[key] = nullptr;
  }
  out["out_of_reach_m2"] = result.out_of_reach_m2;
  out["roofed"] = result.roofed;
  out["volume_note"] = result.volume_note;
  const Vec2 circle = model.to_site(result.largest_circle.centre);
  out["largest_circle"] = {{"at", {circle.x, circle.y}},
                           {"radius_m", result.largest_circle.radius}};
  const geom::RectangleInside& r = result.largest_rectangle;
  const Vec2 rectangle = model.to_site(r.centre);
  out["largest_rectangle"] = {{"at", {rectangle.x, rectangle.y}},
                              {"length_m", r.length},
                              {"width_m", r.width},
                              {"turn_deg", r.turn / geom::kDegree}};
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto put = [&](const char* key, double value, std::string where) {
    Figure figure;
    if (std::isfinite(value)) figure.value = value;
    figure.where = std::move(where);
    figures[std::string("space.") + key] = figure;
  };
  for (const auto& [key, value] : scalars(result)) put(key, value, {});
  figures["space.volume_m3"].where = result.volume_known ? std::string() : result.volume_note;
  put("largest_circle_radius_m", result.largest_circle.radius, {});
  put("largest_rectangle_length_m", result.largest_rectangle.length, {});
  put("largest_rectangle_width_m", result.largest_rectangle.width, {});
}

}  // namespace hummock::space

#include "engine/relief/relief_json.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

namespace hummock::relief {
namespace {

std::vector<std::pair<const char*, double>> scalars(const Result& r) {
  return {{"sa_m", r.sa_m},
          {"sq_m", r.sq_m},
          {"sz_m", r.sz_m},
          {"ssk", r.ssk},
          {"sku", r.sku},
          {"sdq", r.sdq},
          {"sdr", r.sdr},
          {"mean_slope_deg", r.mean_slope_deg},
          {"max_slope_deg", r.max_slope_deg},
          {"tri_mean_m", r.tri_mean_m},
          {"tpi_sd_m", r.tpi_sd_m},
          {"roughness_mean_m", r.roughness_mean_m},
          {"vrm_mean", r.vrm_mean},
          {"flat_share", r.flat_share},
          {"aspect_entropy", r.aspect_entropy},
          {"range_m", r.range_m},
          {"plane_slope_deg", r.plane_slope_deg},
          {"plane_downhill_deg", r.plane_downhill_deg},
          {"rise_count", static_cast<double>(r.rises.size())},
          {"hollow_count", static_cast<double>(r.hollows.size())}};
}

nlohmann::json list(const std::vector<Feature>& features, const Model& model) {
  auto out = nlohmann::json::array();
  for (const Feature& f : features) {
    const Vec2 at = model.to_site(f.at);
    out.push_back(
        {{"at", {at.x, at.y}}, {"height_m", f.height_m}, {"prominence_m", f.prominence_m}});
  }
  return out;
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
  out["rise_count"] = result.rises.size();
  out["hollow_count"] = result.hollows.size();
  out["rises"] = list(result.rises, model);
  out["hollows"] = list(result.hollows, model);
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  for (const auto& [key, value] : scalars(result)) {
    Figure figure;
    if (std::isfinite(value)) figure.value = value;
    figures[std::string("relief.") + key] = figure;
  }
}

}  // namespace hummock::relief

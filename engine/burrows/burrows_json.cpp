#include "engine/burrows/burrows_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace hummock::burrows {
namespace {

nlohmann::json spot(const BurrowSite& s, const Model& model) {
  const Vec2 at = model.to_site(s.at);
  nlohmann::json j;
  j["at"] = {at.x, at.y};
  j["score"] = s.score;
  j["shade_11_15"] = s.shade_11_15;
  if (s.soil_m) {
    j["soil_m"] = *s.soil_m;
  } else {
    j["soil_m"] = nullptr;
  }
  j["slope_deg"] = s.slope_deg;
  j["ponding_m"] = s.ponding_m;
  j["fence_m"] = s.fence_m;
  j["water_m"] = s.water_m;
  j["veto"] = s.veto.empty() ? nlohmann::json() : nlohmann::json(s.veto);
  j["reasons"] = s.reasons;
  return j;
}

}  // namespace

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json j;
  j["best"] = nlohmann::json::array();
  for (const BurrowSite& s : result.best) j["best"].push_back(spot(s, model));
  j["drawn"] = nlohmann::json::array();
  for (const DrawnRow& row : result.drawn) {
    nlohmann::json r = spot(row.as_spot, model);
    r["name"] = row.name;
    r["kind"] = row.kind;
    r["sun_hours"] = row.sun_hours;
    r["words"] = row.words;
    j["drawn"].push_back(r);
  }
  return j;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  const auto put = [&](const char* key, std::optional<double> value, const std::string& where) {
    Figure f;
    f.value = value;
    f.where = where;
    figures[std::string("burrows.") + key] = f;
  };
  std::optional<double> best;
  if (!result.best.empty()) best = result.best.front().score;
  put("best_score", best, "");
  std::optional<double> score, shade, sun;
  std::string score_at, shade_at, sun_at;
  for (const DrawnRow& row : result.drawn) {
    if (row.kind == "sunning rock") {
      if (!sun || row.sun_hours > *sun) sun = row.sun_hours, sun_at = row.name;
      continue;
    }
    if (row.kind != "burrow") continue;
    if (!score || row.as_spot.score < *score) score = row.as_spot.score, score_at = row.name;
    // What is no burrow of the animal's shades none.
    const double share = row.as_spot.veto.empty() ? row.as_spot.shade_11_15 : 0.0;
    if (!shade || share < *shade) {
      shade = share;
      shade_at = row.name;
    }
  }
  put("drawn_least_score", score, score_at);
  put("drawn_least_shade_share", shade, shade_at);
  put("sunning_hours", sun, sun_at);
}

}  // namespace hummock::burrows

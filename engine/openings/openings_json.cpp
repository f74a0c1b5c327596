#include "engine/openings/openings_json.h"

#include <nlohmann/json.hpp>

namespace hummock::openings {

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json out{{"largest_m", result.largest_m},
                     {"least_opening_m", model.site.species.least_opening.value},
                     {"met", result.met},
                     {"pinch_count", result.entrapment_gaps},
                     {"list", nlohmann::json::array()}};
  for (const Opening& o : result.list) {
    const Vec3 at = model.to_site(o.at);
    out["list"].push_back({{"what", o.what},
                           {"where", o.thing},
                           {"at", {at.x, at.y, at.z}},
                           {"ball_m", o.ball_m},
                           {"rigid_ball_m", o.rigid_ball_m},
                           {"length_m", o.length_m},
                           {"passes", o.passes},
                           {"note", o.note}});
  }
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  Figure largest;
  largest.value = result.largest_m;
  for (const Opening& o : result.list) {
    if (!o.leads_out || !o.note.empty()) continue;
    largest.where = o.what + ", " + o.thing;
    break;
  }
  figures["openings.largest_m"] = largest;
  Figure entrapment_gaps;
  entrapment_gaps.value = result.entrapment_gaps;
  figures["openings.pinch_count"] = entrapment_gaps;
}

}  // namespace hummock::openings

#include "engine/entry/entry_json.h"

#include <nlohmann/json.hpp>

namespace hummock::entry {

nlohmann::json to_json(const Result& result, const Model& model) {
  nlohmann::json out{{"met", result.met}, {"gates", nlohmann::json::array()}};
  for (const GateRow& row : result.gates) {
    const Vec3 at = model.to_site(row.at);
    out["gates"].push_back({{"name", row.name},
                            {"at", {at.x, at.y, at.z}},
                            {"vestibule", row.vestibule},
                            {"second_gate", row.second_gate},
                            {"window", row.window},
                            {"vestibule_depth_m", row.vestibule_depth_m},
                            {"needed_depth_m", row.needed_depth_m},
                            {"long_enough", row.long_enough},
                            {"swing_free", row.swing_free},
                            {"in_the_swing", row.in_the_swing},
                            {"in_the_second_swing", row.in_the_second_swing},
                            {"hinge", row.hinge},
                            {"one_open_door_escapes", row.one_open_door_escapes},
                            {"leads_to", row.leads_to},
                            {"met", row.met},
                            {"faults", row.faults}});
    if (!row.people) continue;  // of a door that no person is asked to come by
    nlohmann::json& out_row = out["gates"].back();
    out_row["people_come_to_it"] = row.people->outside.goes;
    out_row["people_walk_in"] = row.people->through.goes;
    out_row["headroom_m"] = row.people->headroom_m();
  }
  return out;
}

void add_figures(const Result& result, const Model&, Figures& figures) {
  int faulty = 0, ways_out = 0;
  std::string first;
  for (const GateRow& row : result.gates) {
    if (row.met) continue;
    if (first.empty()) first = row.name;
    ++faulty;
    if (row.one_open_door_escapes) ++ways_out;
  }
  const auto add = [&](const char* key, double value) {
    Figure figure;
    figure.value = value;
    figure.where = first;
    figures[key] = figure;
  };
  add("entry.gate_count", static_cast<double>(result.gates.size()));
  add("entry.gates_short", faulty);
  add("entry.one_door_ways_out", ways_out);
}

}  // namespace hummock::entry

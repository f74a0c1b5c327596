// The gates and doors in a reviewer's words.
#include "engine/entry/entry_json.h"

namespace hummock::entry {

void add_findings(const Result& r, const Model& model, FindingList& list) {
  for (const GateRow& g : r.gates) {
    for (const std::string& fault : g.faults) {
      list.push_back(
          {g.one_open_door_escapes ? Severity::way_out : Severity::short_of, "entry", g.name,
           "at " + place_words(model, g.at) + " " + quoted(g.name) + ": " + fault, "", g.at});
    }
  }
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"entry.gate_count", "gates and doors that lead out", "", 0, Better::neither,
       "Gates of the boundary and house doors whose outer side is not in the yard."},
      {"entry.gates_short", "gates with a fault", "", 0, Better::less,
       "Gates and doors that lack something the keeper needs."},
      {"entry.one_door_ways_out", "gates where one open door lets the animal out", "", 0,
       Better::less,
       "Of the faulty gates, those where nothing stops a body behind the open leaf."}};
  return rows;
}

}  // namespace hummock::entry

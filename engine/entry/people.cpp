#include "engine/entry/people.h"

#include <utility>

namespace hummock::entry {
namespace {

void add_faults(GateRow& row) {
  keepers::WayIn asked = *row.people;
  // What leaves no way between its doors is told already.
  if (!row.in_the_vestibule.empty() && asked.through.headroom_m == 0.0) asked.through.goes = true;
  for (std::string& fault : keepers::faults_of(asked)) {
    row.faults.push_back(std::move(fault));
    row.met = false;
  }
}

}  // namespace

void ask_for_people(const Model& model, std::vector<GateRow>& rows) {
  const keepers::Yard yard(model);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    GateRow& row = rows[k];
    if (k < model.gateways.size()) {
      row.people = keepers::way_in(yard, model.gateways[k], {});
    } else if (const auto door = keepers::door_outside(model, row.house)) {
      row.people = keepers::way_to_door(yard, *door, {});
    }
    if (row.people) add_faults(row);
  }
}

}  // namespace hummock::entry

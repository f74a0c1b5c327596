// People's way to each gate and door that leads out, and through it (engine/keepers/way_in.h).
#pragma once

#include <vector>

#include "engine/entry/entry.h"

namespace hummock::entry {

// Fills `people` of the rows of gates, which are first and in the model's order, and of doors to
// the outside, and adds what is lacking to their faults.
void ask_for_people(const Model& model, std::vector<GateRow>& rows);

}  // namespace hummock::entry

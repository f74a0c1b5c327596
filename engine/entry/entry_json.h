// The entry result as JSON and as figures for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/brief/brief.h"
#include "engine/entry/entry.h"

namespace hummock::entry {

nlohmann::json to_json(const Result& result, const Model& model);

// entry.gate_count, entry.gates_short (rows with a fault), entry.one_door_ways_out.
void add_figures(const Result& result, const Model& model, Figures& figures);

}  // namespace hummock::entry

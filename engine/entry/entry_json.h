// The entry result as JSON and as figures for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/brief/brief.h"
#include "engine/entry/entry.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"

namespace hummock::entry {

nlohmann::json to_json(const Result& result, const Model& model);

// entry.gate_count, entry.gates_short (rows with a fault), entry.one_door_ways_out.
void add_figures(const Result& result, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at.
void add_findings(const Result& result, const Model& model, FindingList& list);

}  // namespace hummock::entry

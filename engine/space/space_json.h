// Space's figures for the JSON of `check` and for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/space/space.h"

namespace hummock::space {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

// Ground it does not come to from its start.
void add_findings(const Result& result, const Model& model, FindingList& list);

// What each of those figures is.
const FigureRows& figure_rows();

}  // namespace hummock::space

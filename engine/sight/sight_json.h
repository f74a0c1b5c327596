// Sight's figures for the JSON of `check` and for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/sight/sight.h"

namespace hummock::sight {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

// Viewing places whose eyes are walled in.
void add_findings(const Result& result, const Model& model, FindingList& list);

// What each of those figures is.
const FigureRows& figure_rows();

// The largest hidden place.
std::optional<LookAt> look_at(const Result& result, const Model& model);

}  // namespace hummock::sight

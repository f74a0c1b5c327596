// The leap result as JSON (keys as DESIGN §5) and as figures for the brief.
//
// Coordinates are the site file's. What was not found within the search limit is null; the demand
// then has its bound in `bounded_below_m`.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/leap/leap.h"

namespace hummock::leap {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at.
void add_findings(const Result& result, const Model& model, FindingList& list);

// The easiest way out.
std::optional<LookAt> look_at(const Result& result, const Model& model);

}  // namespace hummock::leap

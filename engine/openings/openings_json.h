// The openings as JSON (keys as DESIGN §5) and as figures for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/openings/openings.h"

namespace hummock::openings {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at.
void add_findings(const Result& result, const Model& model, FindingList& list);

// The largest opening.
std::optional<LookAt> look_at(const Result& result, const Model& model);

}  // namespace hummock::openings

// The dig result as JSON (keys as DESIGN §5) and as figures for the brief.
//
// Of the stations only the worst of each section, gate and house are written; lengths and depths
// without bound (no way under) are null.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/dig/dig.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"

namespace hummock::dig {

nlohmann::json to_json(const Result& result, const Model& model);
void add_figures(const Result& result, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at.
void add_findings(const Result& result, const Model& model, FindingList& list);

// The weakest station.
std::optional<LookAt> look_at(const Result& result, const Model& model);

}  // namespace hummock::dig

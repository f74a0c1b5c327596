// Burrow siting for the JSON of `check`, and for the brief.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/burrows/burrows.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"

namespace hummock::burrows {

// best[]{at, score, shade_11_15, soil_m (null = unlimited), slope_deg, ponding_m, fence_m,
// water_m, veto (null = none), reasons[]}, drawn[]{name, kind, at, sun_hours, words, and the same}.
nlohmann::json to_json(const Result& result, const Model& model);

// burrows.best_score, burrows.drawn_least_score, burrows.drawn_least_shade_share (burrows only),
// burrows.sunning_hours (the sunniest of the drawn sunning rocks).
void add_figures(const Result& result, const Model& model, Figures& figures);

// What each of those figures is.
const FigureRows& figure_rows();
// What in it a reviewer should look at.
void add_findings(const Result& result, const Model& model, FindingList& list);

// The best spot.
std::optional<LookAt> look_at(const Result& result, const Model& model);

}  // namespace hummock::burrows

// The service result as JSON, as figures for the brief, in words, and on the map.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/findings/plain_table.h"
#include "engine/service/service.h"

namespace hummock::service {

AnalysisInfo about();
// A site without a gate cannot be asked.
std::optional<NotRun> cannot(const Site& site);

nlohmann::json to_json(const Result& result, const Model& model);
// service.reached_area_m2, reached_share, narrowest_gate_m, gates_too_narrow, cut_off_count,
// shared_gates, shared_places
void add_figures(const Result& result, const Model& model, Figures& figures);
const FigureRows& figure_rows();

void add_findings(const Result& result, const Model& model, FindingList& list);
PlainTables chapter(const Result& result, const Model& model);
// The first place that no barrow comes to.
std::optional<LookAt> look_at(const Result& result, const Model& model);

std::vector<LayerInfo> layers(const Result& result);
geom::Raster layer(const Result& result, const std::string& name);

}  // namespace hummock::service

// The stations result as JSON, as figures for the brief, and in words.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/findings/plain_table.h"
#include "engine/stations/stations.h"

namespace hummock::stations {

AnalysisInfo about();
// Every site can be asked: where nothing is set out there is none.
std::optional<NotRun> cannot(const Site& site);

nlohmann::json to_json(const Result& result, const Model& model);
// How many of each kind, always; the rest of what is drawn.
void add_figures(const Result& result, const Model& model, Figures& figures);
const FigureRows& figure_rows();

void add_findings(const Result& result, const Model& model, FindingList& list);
PlainTables chapter(const Result& result, const Model& model);
// The first station of the kinds an animal uses that it does not come to.
std::optional<LookAt> look_at(const Result& result, const Model& model);

// The site file's word for a kind: "water bowl"; as in a key: "water_bowl".
const std::string& word_of(std::size_t kind);
std::string key_of(std::size_t kind);

}  // namespace hummock::stations

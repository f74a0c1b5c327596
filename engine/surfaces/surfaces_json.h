// The surfaces result as JSON, as figures for the brief, in words, and on the map.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/analysis_info.h"
#include "engine/brief/brief.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/findings/plain_table.h"
#include "engine/surfaces/surfaces.h"

namespace hummock::surfaces {

AnalysisInfo about();
// Every site can be asked.
std::optional<NotRun> cannot(const Site& site);

nlohmann::json to_json(const Result& result, const Model& model);
// Of materials only where a surface is drawn, of plants only where a planting is: without, nothing
// is known.
void add_figures(const Result& result, const Model& model, Figures& figures);
const FigureRows& figure_rows();

void add_findings(const Result& result, const Model& model, FindingList& list);
PlainTables chapter(const Result& result, const Model& model);

std::vector<LayerInfo> layers(const Result& result);
geom::Raster layer(const Result& result, const std::string& name);

// The site file's words, in the order of the enumerators.
const std::vector<std::string>& material_words();
const std::vector<std::string>& plant_words();
const std::vector<std::string>& leaf_words();
// As in a figure's key: "0_to_30_cm", and as it is said: "below 0.3 m".
struct BandWords {
  const char* key;
  const char* said;
};
inline constexpr std::array<BandWords, kBandsFrom.size()> kBandWords{
    {{"0_to_30_cm", "below 0.3 m"},
     {"30_to_100_cm", "from 0.3 to 1 m"},
     {"1_to_2_m", "from 1 to 2 m"},
     {"above_2_m", "above 2 m"}}};
// Likewise of kDigDepths, in centimetres.
inline constexpr std::array<const char*, kDigDepths.size()> kDigWords{"15_cm", "30_cm", "60_cm",
                                                                      "100_cm"};

}  // namespace hummock::surfaces

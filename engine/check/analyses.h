// The list of analyses. Everything that walks over analyses walks over this list: the check, its
// JSON, the findings, the figures a requirement may ask for, `--only`, the viewer's two halves and
// the merge of their results, and `hummock help figures`.
//
// To add one: its folder, with `analyse`, `about`, `to_json`, `add_figures`, `figure_rows` and, if
// it has anything to say, `add_findings`, `layers` with `layer`, `look_at`, `chapter` (a header
// NAME_json.h declares them), and its line in analyses.cpp. One that others read, or that has
// settings of its own, has a member of CheckResults (results.h) and its functions in its row.
#pragma once

#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/analysis_info.h"
#include "engine/base/progress.h"
#include "engine/check/results.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"
#include "engine/findings/plain_table.h"
#include "geometry/plan/grid.h"

namespace hummock {

// A map layer, computed for itself alone.
struct Layer : LayerInfo {
  std::function<geom::Raster(const Model&, const EffectiveSettings&, const Progress&)> make;
  // The animal's figures it is drawn with that have a careful end; none for a layer that uses none.
  std::vector<Assumption> (*rests_on)(const Model&) = nullptr;
};

// What differs from one analysis to the next and is not told by its types.
struct AnalysisWork {
  std::vector<Layer> layers = {};

  // Why this site cannot be asked; nothing = it can.
  std::optional<NotRun> (*cannot)(const Site&) = nullptr;
  const FigureRows& (*figures)() = nullptr;
  void (*run)(const Model&, CheckResults&, const Progress&) = nullptr;
  // What the answer rests on; none for an analysis that does not say.
  RestsOn (*rests_on)(const Model&, const CheckResults&, const Progress&) = nullptr;
  // About, in the processor's time on a usual yard, where 1 is what the least take: the longest are
  // begun first. Numeric, measured on the examples.
  double work = 1.0;
};

struct Analysis : AnalysisInfo, AnalysisWork {
  // Of its member of CheckResults, or of its place among the others.
  void (*make_place)(CheckResults&) = nullptr;
  bool (*there)(const CheckResults&) = nullptr;
  void (*take_over)(CheckResults& into, const CheckResults& from) = nullptr;
  nlohmann::json (*to_json)(const CheckResults&, const Model&) = nullptr;
  void (*add_figures)(const CheckResults&, const Model&, Figures&) = nullptr;
  void (*add_findings)(const CheckResults&, const Model&, FindingList&) = nullptr;
  // Where its figures are to be looked for; nothing = nowhere in particular.
  std::optional<LookAt> (*look_at)(const CheckResults&, const Model&) = nullptr;
  // What it shows in its chapter of the report beside its figures; a chapter that sets an analysis'
  // results in words of its own (engine/report/chapters/parts.h) does without.
  PlainTables (*chapter)(const CheckResults&, const Model&) = nullptr;
};

// In the order they are shown; each after those it reads.
const std::vector<Analysis>& analyses();
const Analysis* find_analysis(const std::string& name);
const std::vector<std::string>& analysis_names();

// The analysis a key of the results belongs to: "leap.margin" → "leap".
std::string analysis_of(const std::string& key);

// Takes over the results of `names` from `from`, with their reasons for not having run, and judges
// nothing.
void take_over_results(CheckResults& into, const CheckResults& from,
                       const std::set<std::string>& names);

}  // namespace hummock

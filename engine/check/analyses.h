// The list of analyses. Everything that walks over analyses walks over this list: the check, its
// JSON, the findings, the figures a requirement may ask for, `--only`, the viewer's two halves and
// the merge of their results, and `hummock help figures`.
//
// To add one: its folder, with `analyse`, `to_json`, `add_figures`, `figure_rows` and, if it has
// anything to say, `add_findings` (a header NAME_json.h declares them); a member of CheckResults
// (results.h); and a row in analyses.cpp.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "engine/base/progress.h"
#include "engine/check/results.h"
#include "engine/figures/figure_info.h"
#include "engine/findings/finding.h"

namespace hummock {

// quick: answers within a blink on a yard, and is asked again with every change in the viewer
enum class Cost { quick, slow };

struct Analysis {
  std::string name;       // its object in the JSON, and the first part of its figures' keys
  std::string question;   // what a reviewer asks it
  std::string group;      // chapter of the report (engine/report/chapters/brief_groups.h)
  std::string explained;  // header with model, limits and sources
  Cost cost = Cost::quick;
  std::vector<std::string> after = {};       // analyses whose results it reads
  std::vector<std::string> depends_on = {};  // tables of the site file that can change its answer
  std::vector<std::string> layers = {};      // of engine/maps/map_layers.h

  // Why this site cannot be asked; nothing = it can.
  std::optional<NotRun> (*cannot)(const Site&) = nullptr;
  const FigureRows& (*figures)() = nullptr;
  void (*run)(const Model&, CheckResults&, const Progress&) = nullptr;
  // What the answer rests on; none for an analysis that does not say.
  RestsOn (*rests_on)(const Model&, const CheckResults&, const Progress&) = nullptr;

  // Of its member of CheckResults.
  bool (*there)(const CheckResults&) = nullptr;
  void (*take_over)(CheckResults& into, const CheckResults& from) = nullptr;
  nlohmann::json (*to_json)(const CheckResults&, const Model&) = nullptr;
  void (*add_figures)(const CheckResults&, const Model&, Figures&) = nullptr;
  void (*add_findings)(const CheckResults&, const Model&, FindingList&) = nullptr;
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

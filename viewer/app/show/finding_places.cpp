#include <algorithm>

#include "engine/check/analyses.h"
#include "viewer/app/show/marks.h"

namespace hummock::viewer {
namespace {

constexpr double kRound = 2.2;  // m worth seeing round a finding

// The place the figures of an analysis speak of, by the list of analyses.
std::optional<Place> place_of_analysis(const Model& m, const CheckResults& r,
                                       const std::string& what) {
  const Analysis* analysis = find_analysis(analysis_of(what));
  if (analysis == nullptr || !analysis->there(r)) return std::nullopt;
  return analysis->look_at(r, m);
}

}  // namespace

std::optional<Place> place_of_finding(const Session& s, int finding) {
  const auto& judged = s.study.judged();
  if (!judged || finding < 0 || finding >= static_cast<int>(judged->findings.size()))
    return std::nullopt;
  const Finding& f = judged->findings[static_cast<std::size_t>(finding)];
  auto place = place_of_analysis(*judged->model, judged->results, f.analysis);
  if (f.at) return Place{*f.at, std::min(kRound, place ? place->radius : kRound)};
  return place;
}

std::optional<Place> place_of_row(const Session& s, int row) {
  const auto& judged = s.study.judged();
  if (!judged || row < 0 || row >= static_cast<int>(judged->results.brief.size()))
    return std::nullopt;
  return place_of_analysis(*judged->model, judged->results,
                           judged->results.brief[static_cast<std::size_t>(row)].what);
}

}  // namespace hummock::viewer

#include <algorithm>

#include "viewer/app/show/marks.h"
#include "viewer/work/merge_results.h"

namespace hummock::viewer {
namespace {

Vec3 on_ground(const Model& m, Vec2 p) {
  return geom::at_height(p, geom::height_at(m.ground, p));
}

// The place the figures of an analysis speak of.
std::optional<Place> place_of_analysis(const Model& m, const CheckResults& r,
                                       const std::string& what) {
  const std::string analysis = analysis_of(what);
  if (analysis == "leap" && r.leap && !r.leap->route.empty()) {
    geom::Box3 box;
    for (const auto& step : r.leap->route)
      if (step.kind != leap::StepKind::walk) {
        box.add(step.from);
        box.add(step.to);
      }
    if (box.empty()) box.add(r.leap->route.back().to);
    return Place{box.centre(), std::max(1.6, geom::distance(box.lo, box.hi))};
  }
  if (analysis == "dig" && r.dig) return Place{on_ground(m, r.dig->worst.at), 2.0};
  if (analysis == "openings" && r.openings && !r.openings->list.empty())
    return Place{r.openings->list.front().at, 0.9};
  if (analysis == "shade" && r.shade) return Place{on_ground(m, r.shade->coolest.at), 3.0};
  if (analysis == "sight" && r.sight && !r.sight->hidden.empty())
    return Place{on_ground(m, r.sight->hidden.front().centre), 3.0};
  if (analysis == "water" && r.water && !r.water->ponds.empty())
    return Place{on_ground(m, r.water->ponds.front().at), 2.0};
  if (analysis == "burrows" && r.burrows && !r.burrows->best.empty())
    return Place{on_ground(m, r.burrows->best.front().at), 2.0};
  return std::nullopt;
}

}  // namespace

std::optional<Place> place_of_finding(const Session& s, int finding) {
  const auto& judged = s.study.judged();
  if (!judged || finding < 0 || finding >= static_cast<int>(judged->findings.size()))
    return std::nullopt;
  const Finding& f = judged->findings[static_cast<std::size_t>(finding)];
  if (f.at) return Place{*f.at, f.analysis == "openings" ? 0.9 : 2.2};
  return place_of_analysis(*judged->model, judged->results, f.analysis);
}

std::optional<Place> place_of_row(const Session& s, int row) {
  const auto& judged = s.study.judged();
  if (!judged || row < 0 || row >= static_cast<int>(judged->results.brief.size()))
    return std::nullopt;
  return place_of_analysis(*judged->model, judged->results,
                           judged->results.brief[static_cast<std::size_t>(row)].what);
}

}  // namespace hummock::viewer

#include "engine/leap/search/route.h"

#include <algorithm>

namespace hummock::leap {

using geom::Vec3;

namespace {

constexpr double kDrawn = 0.01;  // m, chord error of what is drawn

Step leap_step(const Link& link, const Patch& off, const Patch& onto) {
  Step step;
  step.from = link.from;
  step.to = link.to;
  step.effort_m = link.effort;
  step.from_thing = off.name;
  step.to_thing = onto.name;
  if (link.kind == LinkKind::step_over_gap || link.kind == LinkKind::reach) {
    const bool indoors = is_passage(off) || is_passage(onto);
    step.kind = indoors && link.kind != LinkKind::reach ? StepKind::walk : StepKind::climb;
    step.effort_m = 0.0;
    step.arc = {link.from, link.to};
    return step;
  }
  step.kind = StepKind::leap;
  if (link.kind == LinkKind::within) {
    if (link.effort <= 0.0) step.kind = StepKind::walk;
    step.arc = {link.from, link.to};
    return step;
  }
  if (link.kind == LinkKind::assumed) return step;  // no flight of it is known to be free
  step.arc = chain({link.from, link.aim, link.apex}, kDrawn);
  if (!(link.aim == link.to)) step.arc.push_back(link.to);  // pulled up by the forelimbs
  return step;
}

std::vector<Vec3> laid_on_ground(const Model& model, Vec3 from, Vec3 to) {
  std::vector<Vec3> line;
  for (const double t : geom::ground_breaks(model.ground, xy(from), xy(to))) {
    const Vec2 p = lerp(xy(from), xy(to), t);
    line.push_back(at_height(p, geom::height_at(model.ground, p) + kLift));
  }
  return line;
}

Step within(const Model& model, const Patch& patch, Vec3 from, Vec3 to) {
  Step step;
  step.from = from;
  step.to = to;
  const bool climbs = patch.climbed || std::any_of(patch.pieces.begin(), patch.pieces.end(),
                                                   [](const SurfacePiece& s) { return s.cling; });
  step.kind = climbs ? StepKind::climb : StepKind::walk;
  step.from_thing = step.to_thing = patch.name;
  const bool afloat = patch.name == kWaterName;
  step.arc = patch.kind == PatchKind::ground && !afloat ? laid_on_ground(model, from, to)
                                                        : std::vector<Vec3>{from, to};
  return step;
}

}  // namespace

std::vector<Step> route_to(const Model& model, const std::vector<PatchPtr>& patches,
                           const SearchResult& reached, int patch) {
  std::vector<int> chain_of;
  for (int p = patch; p >= 0; p = reached.patches[static_cast<std::size_t>(p)].by.from_patch) {
    chain_of.push_back(p);
  }
  std::reverse(chain_of.begin(), chain_of.end());
  std::vector<Step> route;
  for (std::size_t k = 1; k < chain_of.size(); ++k) {
    const Patch& from = *patches[static_cast<std::size_t>(chain_of[k - 1])];
    const Patch& to = *patches[static_cast<std::size_t>(chain_of[k])];
    const Link& link = reached.patches[static_cast<std::size_t>(chain_of[k])].by;
    if (!route.empty() && distance(route.back().to, link.from) > 0.01) {
      route.push_back(within(model, from, route.back().to, link.from));
    } else if (route.empty() && model.site.leap_start) {
      const Vec2 s = *model.site.leap_start;
      route.push_back(
          within(model, from, at_height(s, geom::height_at(model.ground, s)), link.from));
    }
    route.push_back(leap_step(link, from, to));
  }
  return route;
}

const char* way_in_words(ExitKind kind) {
  switch (kind) {
    case ExitKind::barrier_top:
      return "over the barrier's top";
    case ExitKind::overhang_tip:
      return "over the overhang";
    case ExitKind::roof_edge:
      return "through an opening in the roof";
    case ExitKind::beyond:
      return "along what reaches beyond the boundary";
    case ExitKind::house_hole:
      return "by a hole of a house above the roof";
    case ExitKind::none:
      break;
  }
  return "";
}

}  // namespace hummock::leap

#include "engine/leap/rows/escape.h"

#include <algorithm>
#include <cmath>

#include "engine/leap/search/route.h"
#include "engine/leap/search/site_search.h"

namespace hummock::leap {

namespace {

// What pieces can add to the effort of a leap between them where no route was found (effort.h).
double a_priori_bound(const LinkRules& links, const PlaceRules& rules, double square_side) {
  const double side = std::max(rules.resolution, square_side);
  return links.ability.stretch * side * std::sqrt(2.0) +
         2.0 * side * std::tan(std::min(rules.stand_slope, 1.2)) + 2.0 * kLift;
}

int cheapest_exit(const SearchContext& scene, const SearchResult& reached) {
  int best = -1;
  for (std::size_t p = 0; p < scene.patches->size(); ++p) {
    const Gained& g = reached.patches[p];
    if (!is_exit(*(*scene.patches)[p]) || !g.is()) continue;
    if (best < 0 ||
        g.required_leap < reached.patches[static_cast<std::size_t>(best)].required_leap) {
      best = static_cast<int>(p);
    }
  }
  return best;
}

// Its route, over what and how.
void tell_route(const SearchContext& scene, const SearchResult& reached, int exit, Result& result) {
  result.route = route_to(*scene.model, *scene.patches, reached, exit);
  const Patch& patch = *(*scene.patches)[static_cast<std::size_t>(exit)];
  result.over = patch.name;
  result.how = way_in_words(patch.exit);
  result.by_hole = patch.exit == ExitKind::house_hole;
  result.resolution_bound_m =
      reached.patches[static_cast<std::size_t>(exit)].required_leap_above - *result.escape_leap_m;
}

// Does what is asked come out the same for every demand between the two?
bool settles(const SearchContext& scene, double below, double above) {
  const double leap = scene.links.ability.height;
  const double asked = std::max(1.0, scene.settings.required_margin) * leap;
  const auto same = [&](double limit) { return above <= limit || below >= limit; };
  return same(leap) && same(asked);
}

// A route by a place that was taken as gained for want of an end is none that is known to be flown.
// Where there is one that is, and the answer hangs on nothing between the two, it is told instead:
// the demand is still bounded from below by the first and from above by this.
bool tell_flown_route(const SearchContext& scene, Result& result) {
  const SearchResult flown = search_flown(*scene.model, *scene.patches, scene.links);
  const int exit = cheapest_exit(scene, flown);
  if (exit < 0) return false;
  const double above = flown.patches[static_cast<std::size_t>(exit)].required_leap_above;
  if (!settles(scene, *result.escape_leap_m, above)) return false;
  tell_route(scene, flown, exit, result);
  return true;
}

}  // namespace

bool none_assumed(const std::vector<Step>& route) {
  return std::none_of(route.begin(), route.end(), [](const Step& step) {
    return step.kind == StepKind::leap && step.arc.empty();
  });
}

void tell_escape(const SearchContext& scene, const PlaceRules& rules, double square_side,
                 Result& result) {
  const SearchResult& reached = *scene.reached;
  const double limit = scene.links.limit;
  const int best = cheapest_exit(scene, reached);
  bool known = true;
  if (best >= 0) {
    const Gained& g = reached.patches[static_cast<std::size_t>(best)];
    // A stopped search may have missed what needs more than its key.
    const double settled = reached.complete ? limit : reached.key;
    result.escape_leap_m = std::min(g.required_leap, settled);
    result.bounded_below_m = *result.escape_leap_m;
    tell_route(scene, reached, best, result);
    known = none_assumed(result.route) || tell_flown_route(scene, result);
  } else {
    // Searched to the end, nothing leads out up to the limit, wherever the search's key stood.
    result.bounded_below_m = reached.complete ? limit : std::min(reached.key, limit);
    result.resolution_bound_m = a_priori_bound(scene.links, rules, square_side);
  }
  result.margin = result.bounded_below_m / scene.links.ability.height;
  result.complete = reached.complete && known;
}

void tell_roof_strike(const SearchContext& scene, Result& result) {
  std::vector<const Patch*> from;
  for (std::size_t p = 0; p < scene.patches->size(); ++p) {
    const Gained& g = scene.reached->patches[p];
    const PatchPtr& patch = (*scene.patches)[p];
    const bool there = g.is() && g.required_leap <= scene.links.ability.height;
    if (there && patch->kind != PatchKind::exit) from.push_back(patch.get());
  }
  std::vector<const Patch*> over;
  for (const PatchPtr& p : *scene.roof) over.push_back(p.get());
  const Nearest gap = nearest(from, over, Measure::vertical_gap, scene.links.ability);
  if (!gap.is()) return;
  result.roof_clearance_m = gap.value - standing_height(*scene.model);
  if (*result.roof_clearance_m < 0.0) result.roof_strike_at = gap.to;
}

void keep_nearest_rows(int most, Result& result) {
  if (most <= 0) return;
  const auto nearness = [](const ObjectRow& row) {
    return std::max(row.required_leap_m, row.effort_to_boundary_m.value_or(1e300));
  };
  std::stable_sort(
      result.objects.begin(), result.objects.end(),
      [&](const ObjectRow& a, const ObjectRow& b) { return nearness(a) < nearness(b); });
  const auto count = static_cast<std::size_t>(most);
  if (result.objects.size() > count) result.objects.resize(count);
}

}  // namespace hummock::leap

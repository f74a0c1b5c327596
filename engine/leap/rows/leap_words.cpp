// The leap result in a reviewer's words: every way out, where it is and how the animal gets there.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/leap/rows/escape.h"
#include "engine/leap/rows/leap_json.h"

namespace hummock::leap {
namespace {

// The route's own demand: the search's lower bound may be less by its resolution.
double hardest_step(const std::vector<Step>& route) {
  double most = 0.0;
  for (const Step& step : route) most = std::max(most, step.effort_m);
  return most;
}

// A leap no higher than this is told as part of the climb it belongs to.
constexpr double kStepOnly = 0.05;  // m

bool is_leap(const Step& step) {
  return step.kind == StepKind::leap && step.effort_m > kStepOnly;
}

// "climb over 'stone', 'wall'; leap from 'wall' to 'roof' (0.74 m)": walks and climbs run together.
std::string route_words(const std::vector<Step>& route) {
  std::string words;
  std::string last_climbed;
  bool climbing = false;
  const auto part = [&](const std::string& text) { words += (words.empty() ? "" : "; ") + text; };
  for (const Step& step : route) {
    if (is_leap(step)) {
      part(fmt::format("{} from {} to {} ({} m)", step.arc.empty() ? "perhaps leap" : "leap",
                       quoted(step.from_thing), quoted(step.to_thing),
                       plain_figure(step.effort_m)));
      climbing = false;
    } else if (step.kind == StepKind::walk && step.from_thing == step.to_thing) {
      continue;
    } else if (step.kind == StepKind::walk) {
      part("walk to " + quoted(step.to_thing));
      climbing = false;
    } else if (!climbing) {
      part("climb over " + quoted(step.to_thing));
      last_climbed = step.to_thing;
      climbing = true;
    } else if (step.to_thing != last_climbed) {
      words += ", " + quoted(step.to_thing);
      last_climbed = step.to_thing;
    }
  }
  return words.empty() ? "walk" : words;
}

// "0.74 m", or "0.74 m (no less than 0.70 m)" where the two sides of the answer differ.
std::string need_words(double above, double below) {
  std::string words = plain_figure(above) + " m";
  if (plain_figure(below) != plain_figure(above))
    words += " (no less than " + plain_figure(below) + " m)";
  return words;
}

const char* to_do(bool by_hole) {
  return by_hole ? "close that hole"
                 : "raise the barrier there, or move or lower what it comes from";
}

void add_escape(const Model& model, const Result& r, FindingList& list) {
  if (!r.escape_leap_m || r.margin > 1.0 || r.route.empty()) return;
  const Step& last = r.route.back();
  const double has = model.site.species.leap_height.value;
  const double needs = std::max(hardest_step(r.route), *r.escape_leap_m);
  const bool flown = none_assumed(r.route);
  list.push_back(
      {flown ? Severity::way_out : Severity::short_of, "leap", r.over,
       fmt::format("at {} the animal {} out {} ({}). From {} on {}: {}. It needs a leap of {} "
                   "and has {} m",
                   place_words(model, last.to), flown ? "gets" : "perhaps gets", r.how,
                   quoted(r.over), place_words(model, r.route.front().from),
                   quoted(r.route.front().from_thing), route_words(r.route),
                   need_words(needs, *r.escape_leap_m), plain_figure(has)),
       to_do(r.by_hole), last.from});
}

// Every further stretch of the barrier that it gets over, not only the easiest.
void add_other_ways(const Result& r, double has, FindingList& list) {
  std::set<std::string> told{r.over};
  for (const WayRow& way : r.ways) {
    if (!way.within_leap || !told.insert(way.over).second) continue;
    list.push_back({Severity::way_out, "leap", way.over,
                    fmt::format("the animal also gets out {} ({}) from {}: it needs a leap of {} m "
                                "and has {} m",
                                way.how, quoted(way.over), quoted(way.from),
                                plain_figure(way.required_leap_m), plain_figure(has)),
                    to_do(way.by_hole), std::nullopt});
  }
}

// Whether a remedy was looked for and none found, where the row says so.
template <class Row>
bool none_found(const Row& row) {
  if constexpr (requires { row.remedy_sought; }) {
    return row.remedy_sought && row.remedies.empty();
  } else {
    return false;
  }
}

std::string remedy(const ObjectRow& row) {
  std::string words;
  if (row.move_m) {
    constexpr const char* kCompass[] = {"north", "north-east", "east", "south-east",
                                        "south", "south-west", "west", "north-west"};
    const double bearing = std::atan2(row.move_towards.x, row.move_towards.y) / geom::kDegree;
    const double turned = bearing < 0.0 ? bearing + 360.0 : bearing;
    const auto eighth = static_cast<std::size_t>(std::lround(turned / 45.0)) % 8;
    words = fmt::format("move it {} m to the {} ({:.0f}°)", plain_figure(*row.move_m),
                        kCompass[eighth], turned);
  }
  if (row.lower_m) {
    words += words.empty() ? "" : ", or ";
    words += fmt::format("lower it by {} m", plain_figure(*row.lower_m));
  }
  const bool share = std::any_of(row.remedies.begin(), row.remedies.end(),
                                 [](const Shift& shift) { return shift.share_only; });
  if (share) words += "; that mends its share only: the yard is short without it too";
  if (!words.empty()) return words;
  return none_found(row) ? "no move or lowering was found that helps: take it out" : "take it out";
}

void add_objects(const Model& model, const Result& r, FindingList& list) {
  for (const ObjectRow& row : r.objects) {
    const bool out = row.verdict == Verdict::a_way_out;
    if (!out && row.verdict != Verdict::tight) continue;
    std::string text = fmt::format("at {} {} {}", place_words(model, row.top), quoted(row.name),
                                   out ? "is a step over the barrier"
                                       : "stands too near the barrier for the margin asked for");
    if (row.effort_to_boundary_m) {
      text +=
          fmt::format(": {} m of leap from its top is enough, margin {}",
                      plain_figure(*row.effort_to_boundary_m), plain_figure(row.boundary_margin));
    }
    list.push_back({out ? Severity::way_out : Severity::short_of, "leap", row.name, text,
                    remedy(row), row.top});
  }
}

void add_roof_strike(const Model& model, const Result& r, FindingList& list) {
  if (!r.roof_clearance_m || *r.roof_clearance_m >= 0.0 || !r.roof_strike_at) return;
  list.push_back({Severity::look, "leap", "roof",
                  fmt::format("at {} the animal strikes the roof at full leap",
                              place_words(model, *r.roof_strike_at)),
                  "raise the roof there, or pad it", r.roof_strike_at});
}

}  // namespace

void add_findings(const Result& r, const Model& model, FindingList& list) {
  if (!r.complete) {
    list.push_back({Severity::short_of, "leap", "",
                    fmt::format("the search stopped early: nothing leads out with a leap below {} "
                                "m, beyond that nothing is known",
                                plain_figure(r.bounded_below_m)),
                    "ask with a coarser resolution, or draw less that is finer than it",
                    std::nullopt});
  }
  add_escape(model, r, list);
  add_other_ways(r, model.site.species.leap_height.value, list);
  add_objects(model, r, list);
  add_roof_strike(model, r, list);
}

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"leap.margin", "margin against leaping out", "", 2, Better::more,
       "The leap that the easiest way out needs, divided by what the animal leaps; at 1 it gets "
       "out, and where none was found it is at least this. What is asked beyond 1 is asked at the "
       "figures in use; at a careful end only that there is no way out."},
      {"leap.escape_demand_m", "leap that the easiest escape needs", "m", 2, Better::more,
       "The least leap height with which some route leads over the barrier."},
      {"leap.bounded_below_m", "leap up to which none leads out", "m", 2, Better::more,
       "Nothing the animal does with a leap of less than this gets it out."},
      {"leap.ways_out", "things from which the animal leaves", "", 0, Better::less,
       "How many things it gains and leaves over the barrier within its leap."},
      {"leap.effort_to_boundary_m", "least leap from a thing over the barrier", "m", 2,
       Better::more, "Of all things in the yard, the least leap from one of them to a way out."},
      {"leap.effort_to_roof_m", "least leap from a thing to the roof", "m", 2, Better::more,
       "Of all things in the yard, the least leap from one of them to the roof's sheet."},
      {"leap.roof_clearance_m", "gap between a full leap and the roof", "m", 2, Better::more,
       "Least upright gap between the standing body at full leap and the roof; below 0 it "
       "strikes."},
      {"leap.living_area_m2", "ground it can be on without a leap", "m²", 1, Better::neither,
       "Ground inside from which every route is counted, in plan."}};
  return rows;
}

}  // namespace hummock::leap

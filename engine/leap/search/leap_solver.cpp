#include "engine/leap/search/leap_solver.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

#include "engine/leap/places/places.h"
#include "engine/leap/rows/objects.h"
#include "engine/leap/rows/remedies.h"
#include "engine/leap/rows/sensitivity.h"
#include "engine/leap/search/route.h"
#include "engine/leap/search/touch_leap.h"

namespace hummock::leap {

using geom::Box3;

namespace {

bool plans_meet(const Box3& a, const Box3& b, double reach) {
  return a.lo.x <= b.hi.x + reach && b.lo.x <= a.hi.x + reach && a.lo.y <= b.hi.y + reach &&
         b.lo.y <= a.hi.y + reach;
}
bool boxes_meet(const Box3& a, const Box3& b) {
  return !a.empty() && !b.empty() && plans_meet(a, b, 0.0) && a.lo.z <= b.hi.z && b.lo.z <= a.hi.z;
}

// Flights of the whole site's search, some seconds' worth; a stopped search says so.
constexpr std::int64_t kMostOfSite = 2000000;

// What lies this near beside an edge decides whether it is free (part_places), m.
constexpr double kBesidePart = 0.05;

std::vector<PatchPtr> ways_among(const std::vector<PatchPtr>& patches) {
  std::vector<PatchPtr> ways;
  std::copy_if(patches.begin(), patches.end(), std::back_inserter(ways),
               [](const PatchPtr& p) { return is_exit(*p); });
  return ways;
}

bool same_spots(const std::vector<PatchPtr>& a, const std::vector<PatchPtr>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t k = 0; k < a.size(); ++k) {
    if (a[k]->pieces.size() != b[k]->pieces.size() || a[k]->exit != b[k]->exit) return false;
    for (std::size_t i = 0; i < a[k]->pieces.size(); ++i) {
      const SurfacePiece& p = a[k]->pieces[i];
      const SurfacePiece& q = b[k]->pieces[i];
      if (!(p.at == q.at && p.cell.lo == q.cell.lo && p.cell.hi == q.cell.hi)) return false;
    }
  }
  return true;
}

LinkRules link_rules(const Ability& ability, const Settings& settings) {
  LinkRules rules;
  rules.ability = ability;
  // Searched far enough to tell whether the brief is met.
  const double beyond_brief = 1.25 * settings.required_margin;
  rules.limit = std::max(settings.search_limit, beyond_brief) * ability.height;
  const double resolution = std::min(settings.resolution, kCoarsest);
  rules.step = resolution;
  rules.step_over_gap = 0.5 * resolution;
  rules.chord_error = 0.25 * resolution;
  return rules;
}

}  // namespace

struct LeapSolver::Inner {
  Settings settings;
  PlaceRules rules;
  LinkRules links;
  GroundPlaces ground;
  std::vector<std::vector<PatchPtr>> of_part;
  std::vector<Box3> box_of_part;
  std::vector<PatchPtr> ways_out;
  std::vector<PatchPtr> roof;
  std::vector<PatchPtr> raised;   // things, exits
  std::vector<PatchPtr> patches;  // ground, things, exits
  SearchResult reached;
  std::vector<Furniture> things;
  std::vector<ExitCost> exit_costs;
  Result result;
  std::vector<std::pair<std::string, double>> stages;
  std::chrono::steady_clock::time_point since;

  void begin() {
    stages.clear();
    since = std::chrono::steady_clock::now();
  }
  void stage(const char* name) {
    const auto now = std::chrono::steady_clock::now();
    stages.emplace_back(name, std::chrono::duration<double>(now - since).count());
    since = now;
  }

  SearchContext scene(const Model& model) const {
    return {&model, &patches, &reached, &roof, links, settings};
  }

  void sample_everything(const Model& model) {
    of_part.assign(model.parts.size(), {});
    box_of_part.resize(model.parts.size());
    tbb::parallel_for(std::size_t{0}, model.parts.size(), [&](std::size_t k) {
      box_of_part[k] = geom::bounds(model.parts[k].mesh);
      of_part[k] = part_places(model, static_cast<int>(k), rules);
    });
    stage("things");
    ways_out = exits(model, rules);
    roof = roof_patches(model, std::max(0.1, 2.0 * rules.resolution));
    stage("exits");
    ground = ground_places(model, rules, {&things_and_exits(), &links});
    stage("ground");
  }

  const std::vector<PatchPtr>& things_and_exits() {
    raised.clear();
    for (const auto& list : of_part) raised.insert(raised.end(), list.begin(), list.end());
    raised.insert(raised.end(), ways_out.begin(), ways_out.end());
    return raised;
  }

  void gather() {
    patches = ground.patches;
    patches.insert(patches.end(), raised.begin(), raised.end());
  }

  void search_all(const Model& model, const Progress& progress) {
    Quest quest;
    quest.starts.push_back({0, 0.0});
    quest.most_flights = kMostOfSite;
    for (std::size_t p = 1; p < patches.size(); ++p) quest.targets.push_back(static_cast<int>(p));
    reached = search(patches, quest, *model.body_scene, links, progress);
    stage("search");
  }

  void make_rows(const Model& model, const std::vector<char>& redo) {
    const SearchContext s = scene(model);
    exit_costs.resize(things.size());
    result.objects.resize(things.size());
    tbb::parallel_for(std::size_t{0}, things.size(), [&](std::size_t k) {
      if (redo[k] != 0) exit_costs[k] = exit_cost(s, things[k]);
      ExitCost cost = exit_costs[k];
      add_way_over_things(s, things[k], cost);
      result.objects[k] = row_of(s, things[k], cost);
    });
    stage("rows");
  }

  void conclude(const Model& model);
  void add_remedies(const Model& model);
  void note_plantings(const Model& model);
  void note_body(const Model& model);
  void find_roof_strike();
  void add_notes(const Model& model);
  double a_priori_bound() const;
  std::vector<Box3> changed_boxes(const Model& model, int object) const;
  bool same_parts(const Model& model) const { return box_of_part.size() == model.parts.size(); }
};

// What pieces can add to the effort of a leap between them where no route was found (effort.h).
double LeapSolver::Inner::a_priori_bound() const {
  const double side = std::max(rules.resolution, ground.squares.side);
  return links.ability.stretch * side * std::sqrt(2.0) +
         2.0 * side * std::tan(std::min(rules.stand_slope, 1.2)) + 2.0 * kLift;
}

void LeapSolver::Inner::conclude(const Model& model) {
  int best = -1;
  for (std::size_t p = 0; p < patches.size(); ++p) {
    if (!is_exit(*patches[p]) || !reached.patches[p].is()) continue;
    if (best < 0 || reached.patches[p].required_leap <
                        reached.patches[static_cast<std::size_t>(best)].required_leap) {
      best = static_cast<int>(p);
    }
  }
  const double H = links.ability.height;
  if (best >= 0) {
    const Gained& g = reached.patches[static_cast<std::size_t>(best)];
    // A stopped search may have missed what needs more than its key.
    const double settled = reached.complete ? links.limit : reached.key;
    result.escape_leap_m = std::min(g.required_leap, settled);
    result.bounded_below_m = *result.escape_leap_m;
    result.resolution_bound_m = g.required_leap_above - *result.escape_leap_m;
    result.route = route_to(model, patches, reached, best);
    result.over = patches[static_cast<std::size_t>(best)]->name;
    result.how = way_in_words(patches[static_cast<std::size_t>(best)]->exit);
  } else {
    // Searched to the end, nothing leads out up to the limit, wherever the search's key stood.
    result.bounded_below_m = reached.complete ? links.limit : std::min(reached.key, links.limit);
    result.resolution_bound_m = a_priori_bound();
  }
  result.margin = result.bounded_below_m / H;
  result.living_area_m2 = ground.living_area_m2;
  result.complete = reached.complete;
  result.ways = ways(scene(model));
  add_remedies(model);
  find_roof_strike();
  result.sweep = sweep(model.site.species, result);
  add_notes(model);
  if (settings.max_results > 0) {
    const auto nearness = [](const ObjectRow& row) {
      return std::max(row.required_leap_m, row.effort_to_boundary_m.value_or(1e300));
    };
    std::stable_sort(
        result.objects.begin(), result.objects.end(),
        [&](const ObjectRow& a, const ObjectRow& b) { return nearness(a) < nearness(b); });
    const auto most = static_cast<std::size_t>(settings.max_results);
    if (result.objects.size() > most) result.objects.resize(most);
  }
  stage("conclusion");
}

void LeapSolver::Inner::find_roof_strike() {
  std::vector<const Patch*> from;
  for (std::size_t p = 0; p < patches.size(); ++p) {
    const bool there =
        reached.patches[p].is() && reached.patches[p].required_leap <= links.ability.height;
    if (there && patches[p]->kind != PatchKind::exit) from.push_back(patches[p].get());
  }
  std::vector<const Patch*> over;
  for (const PatchPtr& p : roof) over.push_back(p.get());
  const Nearest gap = nearest(from, over, Measure::vertical_gap, links.ability);
  if (!gap.is()) return;
  result.roof_clearance_m = gap.value;
  if (gap.value < 0.0) result.roof_strike_at = gap.to;
}

void LeapSolver::Inner::add_notes(const Model& model) {
  if (links.ability.height > kAbsurdLeap ||
      links.ability.height * 2.0 / links.ability.stretch > kAbsurdDistance) {
    result.notes.push_back("the leap given is beyond any animal's on record; check the figure");
  }
  if (reached.assumed > 0) {
    result.notes.push_back(
        "places taken as gained, on the careful side, after very many blocked "
        "flights: " +
        std::to_string(reached.assumed));
  }
  if (!reached.complete) {
    result.notes.push_back("the search was stopped early; the demand is a bound from below");
  }
  if (std::none_of(patches.begin(), patches.end(), [](const PatchPtr& p) { return is_exit(*p); })) {
    result.notes.push_back("closed: no edge of fence or roof is open to leave by");
  }
  note_body(model);
  note_plantings(model);
  for (const OverhangPanel& o : model.overhangs) {
    if (o.part < 0 || !can_climb(model, rules, model.parts[static_cast<std::size_t>(o.part)]))
      continue;
    result.notes.push_back(rules.climb_inverted
                               ? "assumed to climb hand over hand beneath the overhang"
                               : "not assumed to climb beneath the overhang, though it climbs its "
                                 "mesh");
    break;
  }
}

// What was taken for the rows the species file leaves out, where it bears an answer of this page.
void LeapSolver::Inner::note_body(const Model& model) {
  const auto left_out = [&](const char* key) {
    const auto& list = rules.body.defaults;
    return std::find(list.begin(), list.end(), key) != list.end();
  };
  const auto note = [&](const std::string& words) {
    result.notes.push_back("assumed, for want of a row in the species file: " + words);
  };
  if (left_out("crouch")) note("rests and squeezes through where its head passes (crouch)");
  if (left_out("reach")) note("reaches an edge a body's length away without leaping (reach)");
  if (left_out("perch")) note("balances on ridges and edges of any width (perch)");
  if (left_out("hangs") && !settings.climb_inverted) {
    note("does not go hand over hand beneath overhangs and roofs (hangs)");
  }
  const bool deep = std::any_of(model.site.waters.begin(), model.site.waters.end(),
                                [](const Water& w) { return w.level.has_value(); });
  if (deep && left_out("swims")) note("swims, and leaps from the water as from land (swims)");
}

// A planting that bears the animal is a step that was not counted.
void LeapSolver::Inner::note_plantings(const Model& model) {
  std::string names;
  for (const Part& part : model.parts) {
    if (part.kind != PartKind::planting) continue;
    const Box3 box = geom::bounds(part.mesh);
    const double tall = box.hi.z - box.lo.z;
    if (!(tall > rules.body.crouch)) continue;
    if (!names.empty()) names += ", ";
    names += "'" + part.name + "'";
  }
  if (!names.empty()) {
    result.notes.push_back("assumed not to bear the animal's weight, and so no step: " + names);
  }
}

void LeapSolver::Inner::add_remedies(const Model& model) {
  if (!settings.remedies) return;
  const SearchContext s = scene(model);
  find_remedies(s, things, result);
}

LeapSolver::LeapSolver(const Model& model, const Settings& settings, const Progress& progress)
    : inner_(std::make_unique<Inner>()) {
  Inner& in = *inner_;
  in.settings = settings;
  in.rules = place_rules(model.site.species, settings);
  in.links = link_rules(in.rules.ability, settings);
  in.begin();
  progress.step("leap: places", 0.0);
  in.sample_everything(model);
  in.gather();
  in.search_all(model, progress);
  in.things = elevated_furniture(model, in.patches);
  in.make_rows(model, std::vector<char>(in.things.size(), 1));
  in.conclude(model);
  progress.step("leap", 1.0);
}

LeapSolver::~LeapSolver() = default;
LeapSolver::LeapSolver(LeapSolver&&) noexcept = default;
LeapSolver& LeapSolver::operator=(LeapSolver&&) noexcept = default;

const Result& LeapSolver::result() const {
  return inner_->result;
}
const std::vector<std::pair<std::string, double>>& LeapSolver::stages() const {
  return inner_->stages;
}

std::vector<Box3> LeapSolver::Inner::changed_boxes(const Model& model, int object) const {
  std::vector<Box3> boxes;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    const bool its =
        (part.kind == PartKind::object || part.kind == PartKind::crown) && part.source == object;
    if (!its) continue;
    boxes.push_back(box_of_part[k]);
    boxes.push_back(geom::bounds(part.mesh));
  }
  return boxes;
}

const Result& LeapSolver::update(const Model& model, int object, const Progress& progress) {
  Inner& in = *inner_;
  if (!in.same_parts(model)) {
    *this = LeapSolver(model, in.settings, progress);
    return inner_->result;
  }
  in.begin();
  const std::vector<PatchPtr> ways_before = ways_among(in.raised);
  const std::vector<Box3> changed = in.changed_boxes(model, object);
  const auto meets_change = [&](const Box3& box) {
    return std::any_of(changed.begin(), changed.end(),
                       [&](const Box3& c) { return plans_meet(box, c, kBesidePart); });
  };
  std::vector<char> part_changed(model.parts.size(), 0);
  tbb::parallel_for(std::size_t{0}, model.parts.size(), [&](std::size_t k) {
    if (model.parts[k].kind == PartKind::panel || model.parts[k].kind == PartKind::gate) return;
    const Box3 box = geom::bounds(model.parts[k].mesh);
    if (!meets_change(box)) return;
    part_changed[k] = 1;
    in.box_of_part[k] = box;
    in.of_part[k] = part_places(model, static_cast<int>(k), in.rules);
  });
  in.stage("things");
  in.ways_out = exits(model, in.rules);
  in.stage("exits");
  in.ground =
      ground_places_again(model, in.rules, {&in.things_and_exits(), &in.links}, in.ground, changed);
  in.stage("ground");
  in.gather();
  in.search_all(model, progress);
  // All ways out, those that things make beyond the boundary too: a row rests on every one.
  const bool same_ways = same_spots(ways_among(in.raised), ways_before);
  in.things = elevated_furniture(model, in.patches);
  in.result = {};
  std::vector<char> redo(in.things.size(), same_ways ? 0 : 1);
  for (std::size_t t = 0; t < in.things.size(); ++t) {
    for (const int part : in.things[t].parts) {
      if (part_changed[static_cast<std::size_t>(part)] != 0) redo[t] = 1;
    }
    for (const Box3& c : changed) {
      if (boxes_meet(in.exit_costs[t].touched, c)) redo[t] = 1;
    }
  }
  in.make_rows(model, redo);
  in.conclude(model);
  return in.result;
}

geom::Raster LeapSolver::ground_required_leap(const Model& model) const {
  const Inner& in = *inner_;
  const TouchLeap touch(in.patches, in.reached, in.links);
  const GroundSquares& sq = in.ground.squares;
  geom::Raster raster(model.ground.grid);
  tbb::parallel_for(0, raster.grid.ny, [&](int j) {
    for (int i = 0; i < raster.grid.nx; ++i) {
      const geom::Vec2 p = raster.grid.node(i, j);
      if (!geom::contains(model.outline, p)) continue;
      const int a = std::clamp(static_cast<int>((p.x - sq.x0) / sq.side), 0, sq.nx - 1);
      const int b = std::clamp(static_cast<int>((p.y - sq.y0) / sq.side), 0, sq.ny - 1);
      const char state = sq.state[static_cast<std::size_t>(b) * static_cast<std::size_t>(sq.nx) +
                                  static_cast<std::size_t>(a)];
      if (state == kCovered || state == kHouse) continue;
      const double d = touch.at(at_height(p, model.ground.at(i, j)));
      if (std::isfinite(d)) raster.at(i, j) = static_cast<float>(d);
    }
  });
  return raster;
}

std::map<std::string, std::vector<float>> LeapSolver::surface_required_leap(
    const Model& model) const {
  const Inner& in = *inner_;
  const TouchLeap touch(in.patches, in.reached, in.links);
  std::map<std::string, std::vector<float>> all;
  for (const Part& part : model.parts) {
    std::string name = part.name;
    for (int copy = 2; all.contains(name); ++copy) name = part.name + "#" + std::to_string(copy);
    std::vector<float>& values = all[name];
    values.assign(part.mesh.vertices.size(), std::numeric_limits<float>::quiet_NaN());
    constexpr std::size_t kTile = 256;
    tbb::parallel_for(std::size_t{0}, (values.size() + kTile - 1) / kTile, [&](std::size_t tile) {
      const std::size_t end = std::min(values.size(), (tile + 1) * kTile);
      for (std::size_t v = tile * kTile; v < end; ++v) {
        const double d = touch.at(part.mesh.vertices[v]);
        if (std::isfinite(d)) values[v] = static_cast<float>(d);
      }
    });
  }
  return all;
}

}  // namespace hummock::leap

#include "engine/leap/rows/objects.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/species/body.h"

namespace hummock::leap {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

std::vector<const Patch*> pointers(const SearchContext& scene, const std::vector<int>& numbers) {
  std::vector<const Patch*> list;
  list.reserve(numbers.size());
  for (const int n : numbers) list.push_back((*scene.patches)[static_cast<std::size_t>(n)].get());
  return list;
}

template <class Wanted>
std::vector<int> patches_where(const SearchContext& scene, Wanted wanted) {
  std::vector<int> list;
  for (std::size_t k = 0; k < scene.patches->size(); ++k) {
    if (wanted(*(*scene.patches)[k])) list.push_back(static_cast<int>(k));
  }
  return list;
}

// Flights a row may try: an edge covered from everywhere could cost all pairs of samples.
constexpr std::int64_t kMostOfRow = 100000;

SearchResult leap_out(const SearchContext& scene, const Furniture& thing,
                      std::vector<int> targets) {
  Quest quest;
  for (const int p : thing.patches) quest.starts.push_back({p, 0.0});
  quest.targets = std::move(targets);
  quest.onward = false;
  quest.stop_at_first_exit = true;
  quest.most_flights = kMostOfRow;
  quest.known = scene.known;
  return search(*scene.patches, quest, *scene.model->body_scene, scene.links);
}

const Gained* cheapest(const SearchResult& result, const std::vector<int>& among, int* patch) {
  const Gained* best = nullptr;
  for (const int p : among) {
    const Gained& g = result.patches[static_cast<std::size_t>(p)];
    if (g.is() && (best == nullptr || g.required_leap < best->required_leap)) {
      best = &g;
      *patch = p;
    }
  }
  return best;
}

}  // namespace

std::vector<Furniture> elevated_furniture(const Model& model,
                                          const std::vector<PatchPtr>& patches) {
  std::vector<Furniture> things;
  std::vector<int> of_part(model.parts.size(), -1);
  const auto add = [&](const std::string& name, int object) {
    things.push_back({name, object, {}, {}});
    return static_cast<int>(things.size()) - 1;
  };
  std::vector<int> of_object(model.site.objects.size(), -1);
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.kind == PartKind::object || part.kind == PartKind::crown) {
      const bool known =
          part.source >= 0 && static_cast<std::size_t>(part.source) < of_object.size();
      int& thing = known ? of_object[static_cast<std::size_t>(part.source)] : of_part[k];
      if (thing < 0) {
        thing =
            add(known ? model.site.objects[static_cast<std::size_t>(part.source)].name : part.name,
                known ? part.source : -1);
      }
      of_part[k] = thing;
    } else if (part.kind == PartKind::den || part.kind == PartKind::house) {
      of_part[k] = add(part.name, -1);
    }
    if (of_part[k] >= 0) {
      things[static_cast<std::size_t>(of_part[k])].parts.push_back(static_cast<int>(k));
    }
  }
  for (std::size_t p = 0; p < patches.size(); ++p) {
    const int part = patches[p]->part;
    if (patches[p]->kind != PatchKind::thing || part < 0) continue;
    const int thing = of_part[static_cast<std::size_t>(part)];
    if (thing >= 0) things[static_cast<std::size_t>(thing)].patches.push_back(static_cast<int>(p));
  }
  return things;
}

double required_leap_of(const SearchContext& scene, const Furniture& thing) {
  double required_leap = kInfinite;
  for (const int p : thing.patches) {
    const Gained& g = scene.reached->patches[static_cast<std::size_t>(p)];
    if (g.is()) required_leap = std::min(required_leap, g.required_leap);
  }
  // What a stopped search did not come to may be gained just above what it settled.
  const bool stopped = !scene.reached->complete && !thing.patches.empty();
  return stopped ? std::min(required_leap, scene.reached->key) : required_leap;
}

namespace {

std::vector<int> exits_of_others(const SearchContext& scene, const Furniture& thing) {
  std::vector<int> ways = patches_where(scene, [](const Patch& p) { return is_leapt_to(p); });
  std::erase_if(ways, [&](int w) {
    return std::find(thing.patches.begin(), thing.patches.end(), w) != thing.patches.end();
  });
  return ways;
}

}  // namespace

ExitCost straight_out(const SearchContext& scene, const Furniture& thing) {
  ExitCost out;
  const std::vector<int> ways = exits_of_others(scene, thing);
  for (const int p : thing.patches) {
    const Patch& patch = *(*scene.patches)[static_cast<std::size_t>(p)];
    if (!is_exit(patch)) continue;
    out.to_boundary = 0.0;
    out.over = patch.name;
    out.at = patch.pieces.front().at;
  }
  if (out.to_boundary || ways.empty() || thing.patches.empty()) return out;
  const SearchResult result = leap_out(scene, thing, ways);
  out.touched = result.touched;
  out.complete = result.complete;
  int over = -1;
  if (const Gained* g = cheapest(result, ways, &over)) {
    out.to_boundary = g->required_leap;
    out.over = (*scene.patches)[static_cast<std::size_t>(over)]->name;
    out.at = g->by.to;
  } else if (!result.complete) {
    out.to_boundary = result.key;  // no less, and perhaps no more
  }
  return out;
}

ExitCost exit_cost(const SearchContext& scene, const Furniture& thing) {
  ExitCost out = straight_out(scene, thing);
  out.boundary_clearance = kInfinite;
  const std::vector<int> ways = exits_of_others(scene, thing);
  int over = -1;
  const std::vector<int> tips =
      patches_where(scene, [](const Patch& p) { return p.exit == ExitKind::overhang_tip; });
  if (!tips.empty() && !thing.patches.empty()) {
    const SearchResult result = leap_out(scene, thing, tips);
    out.touched.add(result.touched);
    if (const Gained* g = cheapest(result, tips, &over)) out.to_tip = g->required_leap;
  }
  const std::vector<const Patch*> own = pointers(scene, thing.patches);
  const Nearest clearance =
      nearest(own, pointers(scene, ways), Measure::clearance, scene.links.ability);
  if (clearance.is()) out.boundary_clearance = clearance.value;
  out.clearance = out.boundary_clearance;
  if (clearance.is() && clearance.value <= 0.0) {
    const Nearest under =
        nearest(own, pointers(scene, ways), Measure::vertical_gap, scene.links.ability);
    if (under.is()) out.clearance = std::min(0.0, under.value);
  }
  std::vector<const Patch*> roof;
  for (const PatchPtr& p : *scene.roof) roof.push_back(p.get());
  const Nearest touch = nearest(own, roof, Measure::effort, scene.links.ability, scene.links.limit);
  if (touch.is()) out.to_roof = touch.value;
  const Nearest gap = nearest(own, roof, Measure::vertical_gap, scene.links.ability);
  if (gap.is()) out.roof_gap = gap.value;
  return out;
}

namespace {

void seek_way_over_things(const SearchContext& scene, const Furniture& thing, double key_limit,
                          ExitCost& cost) {
  if (thing.patches.empty()) return;
  if (cost.to_boundary && *cost.to_boundary <= 0.0) {
    cost.out = cost.to_boundary;
    return;
  }
  Quest quest;
  for (const int p : thing.patches) quest.starts.push_back({p, 0.0});
  quest.targets = patches_where(scene, [](const Patch& p) { return p.kind != PatchKind::ground; });
  quest.stop_at_first_exit = true;
  quest.key_limit = key_limit;
  quest.most_flights = kMostOfRow / 3;
  quest.known = scene.known;
  const SearchResult result = search(*scene.patches, quest, *scene.model->body_scene, scene.links);
  int over = -1;
  const std::vector<int> ways = patches_where(scene, [](const Patch& p) { return is_exit(p); });
  if (const Gained* g = cheapest(result, ways, &over)) {
    cost.out = g->required_leap;
    const bool elsewhere = !cost.to_boundary || *cost.out < *cost.to_boundary;
    if (elsewhere) cost.over = (*scene.patches)[static_cast<std::size_t>(over)]->name;
  }
  if (!result.complete) {
    cost.complete = false;
    cost.out_proven = false;
    if (!cost.out) cost.out = result.key;
  }
  // The leap straight out is one of them.
  if (cost.to_boundary) cost.out = std::min(*cost.to_boundary, cost.out.value_or(kInfinite));
}

}  // namespace

void add_way_over_things(const SearchContext& scene, const Furniture& thing, ExitCost& cost) {
  seek_way_over_things(scene, thing, kInfinite, cost);
}

namespace {

void set_top(const SearchContext& scene, const Furniture& thing, ObjectRow& row) {
  bool found = false;
  bool stood = false;
  const auto look = [&](Vec3 p, bool stands) {
    if (found && (stood && !stands)) return;
    if (!found || (stands && !stood) || p.z > row.top.z) row.top = p;
    found = true;
    stood = stood || stands;
  };
  for (const int n : thing.patches) {
    for (const SurfacePiece& s : (*scene.patches)[static_cast<std::size_t>(n)]->pieces) {
      look({s.at.x, s.at.y, s.cell.hi.z}, !s.cling);
    }
  }
  if (!found) {
    for (const int part : thing.parts) {
      for (const Vec3& v : scene.model->parts[static_cast<std::size_t>(part)].mesh.vertices) {
        look(v, true);
      }
    }
  }
  row.top_m = row.top.z - geom::height_at(scene.model->ground, xy(row.top));
}

constexpr double kSameEffort = 1e-6;  // m

}  // namespace

double least_escape(const SearchContext& scene) {
  double least = 0.0;
  bool any = false;
  for (std::size_t p = 0; p < scene.patches->size(); ++p) {
    const Gained& g = scene.reached->patches[p];
    if (!is_exit(*(*scene.patches)[p]) || !g.is()) continue;
    least = any ? std::min(least, g.required_leap) : g.required_leap;
    any = true;
  }
  return any ? least : -1.0;
}

namespace {

// Over other things where the thing lies on a cheapest route out; elsewhere the cheaper route does
// not pass here, and the leap straight out is what the row is about.
double effort_to_leave(const ExitCost& out, double required_leap, double least) {
  const double straight = out.to_boundary.value_or(kInfinite);
  const double through = std::max(required_leap, out.out.value_or(kInfinite));
  if (out.out_proven && through <= least + kSameEffort) return std::min(straight, *out.out);
  return straight;
}

Verdict verdict_of(const SearchContext& scene, double required_leap, double leave) {
  const double H = scene.links.ability.height;
  const double asked = std::max(1.0, scene.settings.required_margin) * H;
  if (std::max(required_leap, leave) <= H) return Verdict::a_way_out;
  if (required_leap > asked) return Verdict::cannot_be_reached;
  const double wanted = std::max(asked, kTightMargin * H);
  return leave < wanted ? Verdict::tight : Verdict::clear;
}

}  // namespace

Verdict straight_verdict(const SearchContext& scene, const Furniture& thing, const ExitCost& cost) {
  return verdict_of(scene, required_leap_of(scene, thing), cost.to_boundary.value_or(kInfinite));
}

Verdict verdict_alone(const SearchContext& scene, const Furniture& thing, ExitCost cost) {
  const double required_leap = required_leap_of(scene, thing);
  const double least = least_escape(scene);
  if (required_leap <= least + kSameEffort) {
    seek_way_over_things(scene, thing, least + kSameEffort, cost);
  }
  return verdict_of(scene, required_leap, effort_to_leave(cost, required_leap, least));
}

double standing_height(const Model& model) {
  return body_of(model.site.species).height;
}

ObjectRow row_of(const SearchContext& scene, const Furniture& thing, const ExitCost& out) {
  const double H = scene.links.ability.height;
  ObjectRow row;
  row.name = thing.name;
  row.object = thing.object;
  set_top(scene, thing, row);
  row.required_leap_m = required_leap_of(scene, thing);
  row.reachable = row.required_leap_m <= H;
  row.effort_to_boundary_m = out.to_boundary;
  row.effort_out_m = out.out;
  row.complete = out.complete && scene.reached->complete;
  row.clearance_m = out.clearance;
  row.effort_to_overhang_tip_m = out.to_tip;
  row.effort_to_roof_m = out.to_roof;
  if (out.roof_gap) row.roof_clearance_m = *out.roof_gap - standing_height(*scene.model);
  row.boundary_clearance_m = out.boundary_clearance;
  row.over = out.over;
  const double least = least_escape(scene);
  const double leave = effort_to_leave(out, row.required_leap_m, least);
  // No way from a thing that is gained below the least escape is below it.
  if (!out.out_proven && row.required_leap_m < least) row.effort_out_m = std::max(*out.out, least);
  row.boundary_margin = leave / H;
  row.verdict = verdict_of(scene, row.required_leap_m, leave);
  return row;
}

}  // namespace hummock::leap

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/leap/physics/known_flights.h"
#include "engine/leap/rows/kept_rows.h"
#include "engine/leap/rows/remedies.h"
#include "engine/leap/rows/sensitivity.h"
#include "engine/leap/search/site_search.h"
#include "geometry/plan/convex_hull_cgal.h"
#include "geometry/plan/hull_overlap.h"

namespace hummock::leap {

using geom::Box3;
using geom::Polygon;
using geom::Vec2;

namespace {

constexpr double kTouch = 1e-3;  // m, overlaps less than this are contact

constexpr int kGravest = 2;
int gravity(Verdict verdict) {
  if (verdict == Verdict::a_way_out) return kGravest;
  return verdict == Verdict::tight ? 1 : 0;
}

// A thing's solid as a prism: the hull of its plan, and its heights.
struct Prism {
  Polygon hull;
  double lo = 0.0, hi = 0.0;  // m
};

Prism prism_of(const Part& part) {
  std::vector<Vec2> plan;
  for (const Vec3& v : part.mesh.vertices) plan.push_back(xy(v));
  const Box3 box = geom::bounds(part.mesh);
  return {geom::convex_hull(plan), box.lo.z, box.hi.z};
}

bool meet(const Prism& a, const Prism& b) {
  return a.lo < b.hi - kTouch && b.lo < a.hi - kTouch &&
         geom::hulls_overlap(a.hull, b.hull, kTouch);
}

class Prover {
 public:
  Prover(const SearchContext& scene, const Solved& solved, const std::vector<Furniture>& things,
         const Result& before)
      : scene_(scene),
        solved_(solved),
        things_(things),
        before_(before),
        asked_(std::max(1.0, scene.settings.required_margin) * scene.links.ability.height) {
    for (const Part& part : scene.model->parts) {
      const bool solid = part.kind == PartKind::object || part.kind == PartKind::den ||
                         part.kind == PartKind::house;
      prisms_.push_back(solid ? std::optional<Prism>(prism_of(part)) : std::nullopt);
    }
  }

  bool asks_for_one(const ObjectRow& row) const {
    return short_of_brief(row.required_leap_m, row.effort_to_boundary_m, row.verdict);
  }

  // Every proof is a whole answer: no more than kMostProofs of them.
  bool spent() const { return proofs_ >= kMostProofs; }

  bool move_holds(std::size_t row, const Move& move) {
    if (!stands_free(things_[row], move)) return false;
    Site site = scene_.model->site;
    Object& object = site.objects[static_cast<std::size_t>(things_[row].object)];
    object.at = object.at + move.towards * move.by;
    return holds(row, site);
  }

  bool lowering_holds(std::size_t row, double by) {
    if (!stands_free(things_[row], {})) return false;
    Site site = scene_.model->site;
    site.objects[static_cast<std::size_t>(things_[row].object)].z -= by;
    return holds(row, site);
  }

 private:
  // Inside the outline, and in nothing it was not in before.
  bool stands_free(const Furniture& thing, const Move& move) const {
    const Vec2 shift = move.towards * move.by;
    for (const int own : thing.parts) {
      const auto& prism = prisms_[static_cast<std::size_t>(own)];
      if (!prism) continue;
      Prism moved = *prism;
      for (Vec2& p : moved.hull) {
        p = p + shift;
        if (!geom::contains(scene_.model->outline, p)) return false;
      }
      for (std::size_t k = 0; k < prisms_.size(); ++k) {
        const bool its = std::find(thing.parts.begin(), thing.parts.end(), static_cast<int>(k)) !=
                         thing.parts.end();
        if (its || !prisms_[k]) continue;
        if (meet(moved, *prisms_[k]) && !meet(*prism, *prisms_[k])) return false;
      }
    }
    return true;
  }

  bool short_of_brief(double required_leap, const std::optional<double>& out,
                      Verdict verdict) const {
    return std::max(required_leap, out.value_or(1e300)) < asked_ || verdict == Verdict::a_way_out;
  }

  bool holds(std::size_t row, const Site& site) {
    ++proofs_;
    try {
      return nothing_worse(row, build_model(site));
    } catch (const InputError&) {
      return false;  // such a site would be refused
    }
  }

  bool nothing_worse(std::size_t row, const Model& model) const {
    SitePlaces places = solved_.places;
    if (places.box_of_part.size() != model.parts.size()) return false;
    const std::vector<Box3> changed = changed_boxes(places, model, things_[row].object);
    const std::vector<char> part_changed = sample_again(places, model, solved_.rules, changed);
    const std::vector<PatchPtr> patches = places.all();
    const SearchResult reached = search_site(model, patches, scene_.links);
    SearchContext after = scene_;
    after.model = &model;
    after.patches = &patches;
    after.reached = &reached;
    const std::vector<Furniture> things = elevated_furniture(model, patches);
    if (!reached.complete || things.size() != things_.size()) return false;
    const KnownFlights known = scene_.known->tried(patches, changed);
    after.known = &known;
    const bool kept = same_ways(solved_.places.raised, places.raised);
    return no_way_worse(ways(after)) &&
           no_row_worse(after, row, things,
                        rows_to_redo(things, solved_.exit_costs, part_changed, changed, kept));
  }

  // What is cheap to know goes first.
  bool no_row_worse(const SearchContext& after, std::size_t row,
                    const std::vector<Furniture>& things, const std::vector<char>& redo) const {
    std::vector<ExitCost> costs;
    for (std::size_t k = 0; k < things.size(); ++k) {
      ExitCost cost = redo[k] != 0 ? straight_out(after, things[k]) : solved_.exit_costs[k];
      const Verdict verdict = straight_verdict(after, things[k], cost);
      const double required_leap = required_leap_of(after, things[k]);
      if (worse(k, verdict)) return false;
      if (k == row && short_of_brief(required_leap, cost.to_boundary, verdict)) return false;
      costs.push_back(std::move(cost));
    }
    for (std::size_t k = 0; k < things.size(); ++k) {
      if (k != row && gravity(before_.objects[k].verdict) == kGravest) continue;
      const Verdict verdict = verdict_alone(after, things[k], costs[k]);
      if (worse(k, verdict) || (k == row && verdict == Verdict::a_way_out)) return false;
    }
    return true;
  }

  bool worse(std::size_t k, Verdict verdict) const {
    return gravity(verdict) > gravity(before_.objects[k].verdict);
  }

  bool no_way_worse(const std::vector<WayRow>& after) const {
    return std::all_of(after.begin(), after.end(), [&](const WayRow& way) {
      if (way.required_leap_m >= asked_) return true;
      return std::any_of(before_.ways.begin(), before_.ways.end(), [&](const WayRow& was) {
        return was.over == way.over && was.from == way.from &&
               was.required_leap_m <= way.required_leap_m + kTouch;
      });
    });
  }

  const SearchContext& scene_;
  const Solved& solved_;
  const std::vector<Furniture>& things_;
  const Result& before_;
  double asked_;
  int proofs_ = 0;
  std::vector<std::optional<Prism>> prisms_;  // by part; nothing for what is no thing
};

bool built_with_allowances(const Model& model) {
  return std::any_of(model.notes.begin(), model.notes.end(),
                     [](const std::string& note) { return note.rfind("built with", 0) == 0; });
}

void try_moves(Prover& prover, const SearchContext& scene, const Furniture& thing, std::size_t row,
               ObjectRow& out) {
  int tried = 0;
  for (const Move& move : moves_to_try(scene, thing)) {
    if (++tried > kTried || prover.spent()) return;
    if (!prover.move_holds(row, move)) continue;
    out.move_m = move.by;
    out.move_towards = move.towards;
    out.remedies.push_back({Shift::Kind::move, move.by, bearing_deg(move.towards), true});
    return;
  }
}

void try_lowerings(Prover& prover, const SearchContext& scene, const Furniture& thing,
                   std::size_t row, ObjectRow& out) {
  for (const double by : lowerings_to_try(scene, thing)) {
    if (prover.spent()) return;
    if (!prover.lowering_holds(row, by)) continue;
    out.lower_m = by;
    out.remedies.push_back({Shift::Kind::lower, by, 0.0, true});
    return;
  }
}

}  // namespace

void find_remedies(const SearchContext& scene, const Solved& solved,
                   const std::vector<Furniture>& things, Result& result) {
  if (built_with_allowances(*scene.model)) return;
  const Result before = result;
  Prover prover(scene, solved, things, before);
  for (std::size_t k = 0; k < things.size(); ++k) {
    ObjectRow& row = result.objects[k];
    if (things[k].object < 0 || !prover.asks_for_one(row) || prover.spent()) continue;
    row.remedy_sought = true;
    try_moves(prover, scene, things[k], k, row);
    try_lowerings(prover, scene, things[k], k, row);
  }
}

}  // namespace hummock::leap

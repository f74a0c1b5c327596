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

enum class Mends { nothing, its_share, all };

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

  Mends by_move(std::size_t row, const Move& move) {
    if (!stands_free(things_[row], move)) return Mends::nothing;
    Site site = scene_.model->site;
    Object& object = site.objects[static_cast<std::size_t>(things_[row].object)];
    object.at = object.at + move.towards * move.by;
    return tried(row, site);
  }

  Mends by_lowering(std::size_t row, double by) {
    if (!stands_free(things_[row], {})) return Mends::nothing;
    Site site = scene_.model->site;
    site.objects[static_cast<std::size_t>(things_[row].object)].z -= by;
    return tried(row, site);
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

  Mends tried(std::size_t row, const Site& site) {
    ++proofs_;
    try {
      const Model model = build_model(site);
      Trial trial(*this, row, model);
      if (!trial.complete() || !nothing_worse(row, trial)) return Mends::nothing;
      const double least = trial.least();
      if (least >= asked_ - kTouch) return Mends::all;
      return least >= without(row) - kTouch ? Mends::its_share : Mends::nothing;
    } catch (const InputError&) {
      return Mends::nothing;  // such a site would be refused
    }
  }

  // The yard solved again with the thing changed.
  struct Trial {
    Trial(const Prover& prover, std::size_t row, const Model& model)
        : places(prover.solved_.places), scene(prover.scene_) {
      if (places.box_of_part.size() != model.parts.size()) return;
      changed = changed_boxes(places, model, prover.things_[row].object);
      part_changed = sample_again(places, model, prover.solved_.rules, changed);
      patches = places.all();
      known.emplace(scene.known->tried(patches, changed));
      reached = search_site(model, patches, scene.links, {}, &*known);
      scene.known = &*known;
      scene.model = &model;
      scene.patches = &patches;
      scene.reached = &reached;
      solved = true;
    }
    Trial(const Trial&) = delete;
    Trial& operator=(const Trial&) = delete;

    bool complete() const { return solved && reached.complete; }
    // The demand of the least way out, m; infinite where none is within the limit.
    double least() const {
      const double found = least_escape(scene);
      return found < 0.0 ? 1e300 : found;
    }

    SitePlaces places;
    SearchContext scene;
    std::vector<Box3> changed;
    std::vector<char> part_changed;
    std::vector<PatchPtr> patches;
    std::optional<KnownFlights> known;
    SearchResult reached;
    bool solved = false;
  };

  // The yard's least demand with the thing sunk out of sight, m; infinite where it cannot be told,
  // so that nothing is taken for proven by it. One solve more for a row, and only where it is
  // asked.
  double without(std::size_t row) {
    if (without_ && without_->first == row) return without_->second;
    Site site = scene_.model->site;
    Object& object = site.objects[static_cast<std::size_t>(things_[row].object)];
    double tall = 0.0;
    for (const int part : things_[row].parts) {
      const Box3 box = geom::bounds(scene_.model->parts[static_cast<std::size_t>(part)].mesh);
      tall = std::max(tall, box.hi.z - geom::height_at(scene_.model->ground, object.at));
    }
    constexpr double kOutOfSight = 10.0;  // m below what it reached up to
    object.z -= tall + kOutOfSight;
    double least = 1e300;
    try {
      const Model model = build_model(site);
      const Trial trial(*this, row, model);
      if (trial.complete()) least = trial.least();
    } catch (const InputError&) {
      least = 1e300;
    }
    without_ = {row, least};
    return least;
  }

  bool nothing_worse(std::size_t row, Trial& trial) const {
    const std::vector<Furniture> things = elevated_furniture(*trial.scene.model, trial.patches);
    if (things.size() != things_.size()) return false;
    const SearchContext& after = trial.scene;
    const bool kept = same_ways(solved_.places.raised, trial.places.raised);
    return no_way_worse(ways(after)) &&
           no_row_worse(
               after, row, things,
               rows_to_redo(things, solved_.exit_costs, trial.part_changed, trial.changed, kept));
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
  std::optional<std::pair<std::size_t, double>> without_;  // of the last row asked
  std::vector<std::optional<Prism>> prisms_;               // by part; nothing for what is no thing
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
    const Mends mends = prover.by_move(row, move);
    if (mends == Mends::nothing) continue;
    out.move_m = move.by;
    out.move_towards = move.towards;
    out.remedies.push_back(
        {Shift::Kind::move, move.by, bearing_deg(move.towards), true, mends == Mends::its_share});
    return;
  }
}

void try_lowerings(Prover& prover, const SearchContext& scene, const Furniture& thing,
                   std::size_t row, ObjectRow& out) {
  for (const double by : lowerings_to_try(scene, thing)) {
    if (prover.spent()) return;
    const Mends mends = prover.by_lowering(row, by);
    if (mends == Mends::nothing) continue;
    out.lower_m = by;
    out.remedies.push_back({Shift::Kind::lower, by, 0.0, true, mends == Mends::its_share});
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

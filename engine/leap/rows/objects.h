// The row of each elevated thing: can it be gained, and how near is it to a way out.
//
// effort_to_boundary  the least effort of one leap from the thing to an exit, flights tested and
//                     blocked ones tried steeper and flatter (so an overhang counts for what it
//                     stops); climbing along the thing itself is free.
// demand              of the thing: that of its cheapest patch.
// effort out          the same over other raised things (never by the ground): of a stone from
//                     which it leaves through a tree, told beside its own leap out.
// route               max(demand, effort to the boundary): below the leap height it is a way out.
//                     Of a thing on a cheapest route from the ground the effort out counts instead,
//                     where it is proven.
// roof clearance      least vertical gap between the envelope of a full leap from the thing and the
//                     roof, less the height of the body, which stands over the feet that the leap
//                     lifts; negative where it would strike. Flights taken as free. An animal that
//                     folds in the air has more: how far is not known.
// boundary clearance  shortest distance from the envelope of a full leap to the exits; `clearance`
//                     goes on below 0 where the envelope is above an exit, as the vertical gap.
// stopped             a search that stops gives the effort up to which nothing was missed in place
// of
//                     the effort out: no less, and perhaps no more (`complete` false).
//
// move_m, lower_m: see remedies.h.
#pragma once

#include <vector>

#include "engine/leap/leap.h"
#include "engine/leap/places/nearest_pair.h"
#include "engine/leap/search/minimax.h"

namespace hummock::leap {

// What the solver holds when rows are asked.
struct SearchContext {
  const Model* model = nullptr;
  const std::vector<PatchPtr>* patches = nullptr;  // ground, things, exits
  const SearchResult* reached = nullptr;
  const std::vector<PatchPtr>* roof = nullptr;
  LinkRules links;
  Settings settings;
  const KnownFlights* known = nullptr;  // of these patches
};

struct Furniture {
  std::string name;
  int object = -1;           // index into site.objects, or −1
  std::vector<int> parts;    // its parts
  std::vector<int> patches;  // its places
};
std::vector<Furniture> elevated_furniture(const Model& model, const std::vector<PatchPtr>& patches);

// What a row owes only to the thing itself, the exits, the roof and the flights tested: kept by the
// solver while nothing within `touched` changes.
struct ExitCost {
  std::optional<double> to_boundary, to_tip, to_roof;
  std::optional<double> roof_gap;  // over the feet
  std::optional<double> out;       // over other things; not kept
  bool out_proven = true;  // false: that search was stopped, and `out` is only a bound from below
  double boundary_clearance = 0.0, clearance = 0.0;
  bool complete = true;
  std::string over;
  geom::Vec3 at;  // the exit the leap goes to
  geom::Box3 touched;
};
ExitCost exit_cost(const SearchContext& scene, const Furniture& thing);
// Of it the leap straight out alone: to_boundary, over, at, complete, touched.
ExitCost straight_out(const SearchContext& scene, const Furniture& thing);
// Adds the effort out over other things, which rests on all of them.
void add_way_over_things(const SearchContext& scene, const Furniture& thing, ExitCost& cost);

// The row's verdict without the row. `straight`: of the leap straight out alone, which the way over
// other things can only make graver; then that way is sought no further than it bears the verdict.
Verdict straight_verdict(const SearchContext& scene, const Furniture& thing, const ExitCost& cost);
Verdict verdict_alone(const SearchContext& scene, const Furniture& thing, ExitCost cost);

// Of the body over its feet, m: a leap lifts the feet.
double standing_height(const Model& model);

ObjectRow row_of(const SearchContext& scene, const Furniture& thing, const ExitCost& exit_cost);

// Least demand over the thing's places; infinite when none is gained within the limit.
double required_leap_of(const SearchContext& scene, const Furniture& thing);

// The demand of the least way out, m; -1 when none was gained.
double least_escape(const SearchContext& scene);

}  // namespace hummock::leap

// The row of each elevated thing: can it be gained, and how near is it to a way out.
//
// effort_to_boundary  the least effort of one leap from the thing to an exit, flights tested and
//                     blocked ones tried steeper and flatter (so an overhang counts for what it
//                     stops); climbing along the thing itself is free.
// demand              of the thing: that of its cheapest patch.
// route               max(demand, effort to the boundary): below the leap height it is a way out.
// roof clearance      least vertical gap between the envelope of a full leap from the thing and the
//                     roof; negative where it would strike. Flights taken as free.
// boundary clearance  shortest distance from the envelope of a full leap to the exits.
//
// move_m, lower_m: see remedies.h.
#pragma once

#include <vector>

#include "engine/leap/leap.h"
#include "engine/leap/places/roof.h"
#include "engine/leap/search/minimax.h"

namespace hummock::leap {

// What the solver holds when rows are asked.
struct Scene {
  const Model* model = nullptr;
  const std::vector<PatchPtr>* patches = nullptr;  // ground, things, exits
  const SearchResult* gained = nullptr;
  const std::vector<PatchPtr>* roof = nullptr;
  LinkRules links;
  Settings settings;
};

struct Thing {
  std::string name;
  int object = -1;           // index into site.objects, or −1
  std::vector<int> parts;    // its parts
  std::vector<int> patches;  // its places
};
std::vector<Thing> elevated_things(const Model& model, const std::vector<PatchPtr>& patches);

// What a row owes only to the thing itself, the exits, the roof and the flights tested: kept by the
// solver while nothing within `touched` changes.
struct Leaving {
  std::optional<double> to_boundary, to_tip, to_roof, roof_gap;
  double boundary_clearance = 0.0;
  std::string over;
  geom::Vec3 at;  // the exit the leap goes to
  geom::Box3 touched;
};
Leaving leaving(const Scene& scene, const Thing& thing);

ObjectRow row_of(const Scene& scene, const Thing& thing, const Leaving& leaving);

// Least demand over the thing's places; infinite when none is gained within the limit.
double demand_of(const Scene& scene, const Thing& thing);

}  // namespace hummock::leap

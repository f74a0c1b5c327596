// Houses as passages: what is gained by one way of a room is left by any other.
//
// A room (engine/barrier/house_ways.h) with two openings or more that pass the animal's head is a
// place, whose pieces lie right before its doors and vents at the height of their sills, wherever
// those open into the yard: it walks from one to the other at no effort, and leaps from there. What
// snow lies before a hole is dug through, and what lies higher than its sill is stood on as long as
// the head gets in above it. A room with one opening leads nowhere else and is none, but where
// something before the opening parts it, as a wall that ends at a door. Ways to the outside are
// told by the openings and the entry check, but for what opens above a roof that closes the yard:
// that is a way out, gained from within alone.
//
// Up within. Nothing that stands in a house is drawn. An opening whose sill lies higher than it
// reaches above the floor is a place of its own (Patch::room), gained from within by a leap
// straight up to its edge. The floor is taken no lower than the lowest of the room's openings, nor
// lower below a sill than the soil before it: where it lies lower more is needed. Where the site
// file says that the house has hides or places to climb those take it up to every opening at no
// effort; where it says nothing the answer rests on there being none (engine/leap/rows/premises.h).
#pragma once

#include <vector>

#include "engine/leap/places/places.h"

namespace hummock::leap {

std::vector<PatchPtr> through_houses(const Model& model, const PlaceRules& rules);

// Houses with an opening that asks for a leap from within: indices of site.houses.
std::vector<int> climbed_within(const Model& model, const PlaceRules& rules);

}  // namespace hummock::leap

// Houses as passages: what is gained by one way of a room is left by any other.
//
// A room (engine/barrier/house_ways.h) with two openings or more that pass the animal's head is one
// place, whose pieces lie right before its doors and vents at the height of their sills, wherever
// those open into the yard: it walks from one to the other at no effort, and leaps from there. What
// snow lies before a hole is dug through, and what lies higher than its sill is stood on as long as
// the head gets in above it. A room with one opening leads nowhere else and is none, but where
// something before the opening parts it, as a wall that ends at a door. Ways to the outside are
// told by the openings and the entry check.
#pragma once

#include <vector>

#include "engine/leap/places/places.h"

namespace hummock::leap {

std::vector<PatchPtr> through_houses(const Model& model, const PlaceRules& rules);

}  // namespace hummock::leap

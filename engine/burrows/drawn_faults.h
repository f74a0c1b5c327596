// What is wrong with a drawn burrow, den or sunning rock whatever its scores.
//
// each          no ground it can live on and comes to from its start (own_ground.h) is within a
//   body's length of the mouth, of the middle of the ground before a den, or of the box about a
//   rock that it would gain from the ground, with nothing between.
// den           its opening is narrower than the animal's head passes.
// burrow        narrower than the animal's head passes; dug deeper than the soil at any place of
//   its path; under a drawn water at any place of its path (kApart apart).
// sunning rock  its top is gained from the ground, by a leap and the grip or by climbing, or from a
//   thing that is: not more than half its leap up and half its leap's distance away (careful: what
//   is not shown to be gained is not). On its top a patch holds the lying body (body_patches.h), on
//   faces it stands on with its crouch clear above.
#pragma once

#include <set>
#include <string>

#include "engine/burrows/spot_score.h"
#include "engine/usable/living_nodes.h"

namespace hummock::burrows {

// In words that go on "…: "; empty when nothing is.
std::string burrow_fault(const Yard& yard, const usable::Nodes& nodes, const Burrow& burrow);
std::string den_fault(const Yard& yard, const usable::Nodes& nodes, const Den& den, Vec2 front);

// May the animal lie on the top of this object of the site? One that the site does not hold is not
// judged.
bool lies_on_top(const Yard& yard, const std::string& object);
// The objects, by name, whose tops it is not shown to come to.
std::set<std::string> tops_not_gained(const Yard& yard, const usable::Nodes& nodes);

}  // namespace hummock::burrows

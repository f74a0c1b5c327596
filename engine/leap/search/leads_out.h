// Which places lead out: from there, over other things, without any leap above a given effort.
//
// Nobody asks whether the animal gains them today. A pole too tall for it, off which it would get
// over the fence, holds it until something is put beside the pole: so whatever is put up must stay
// below what reaches such places too (cap_map.h).
//
// Each search settles more than its start: what lies on a route out leads out, and when there is
// none, nothing that was gained on the way leads out either. So all of them cost about as much as
// one search of the site. A search that stops early is taken to have found a way: the answer is
// never too short a list.
#pragma once

#include <vector>

#include "engine/leap/places/places.h"

namespace hummock::leap {

// Not the ways out themselves, nor the living ground. `most`: m, of every leap.
std::vector<PatchPtr> places_that_lead_out(const Model& model, const PlaceRules& rules,
                                           double most);

}  // namespace hummock::leap

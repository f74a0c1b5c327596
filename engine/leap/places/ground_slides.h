// Steep ground an animal can be on though it walks up none of it: what it slides down to from a
// place (engine/usable: it can be on any slope).
#pragma once

#include <vector>

#include "engine/leap/places/ground_squares.h"

namespace hummock::leap {

// `piece` by square: the part of the ground each place belongs to. Gives every steep square that is
// slid down to, from square to square never upwards, the part it is slid from, and returns which.
// Left out: squares within two of another part's, which would be a way up to it that is none.
BlockGrid<char> slide_down(const Model& model, const PlaceRules& rules,
                           const SquareSampler& sampler, BlockGrid<int>& piece);

// Is the way from one square's point to the next free at foot or at body height?
bool step_free(const Model& model, const PlaceRules& rules, const SquareSampler& sampler, int i,
               int j, int a, int b);

}  // namespace hummock::leap

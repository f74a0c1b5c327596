// What "nothing passes" and "nothing pinches" rest on: the least opening, where it is assumed, told
// or from memory, or the file gives it a careful end (engine/brief/assumptions.h).
//
// The careful value is the file's; else kSmaller of the used one. The row is met, if its head
// passes nothing smaller than the largest opening there is: the breaking value is that opening.
//
// Gaps an animal may wedge in are counted again between the narrowest and the widest body that the
// file's values allow (entrapment_gaps.h); where that turns a requirement, its width is named on
// each side that adds gaps, with the width from which the first of them does.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/openings/openings.h"
#include "engine/species/doubt.h"

namespace hummock::openings {

inline constexpr double kSmaller = kSmallerHead;  // common practice, no source

RestsOn what_it_rests_on(const Model& model, const Result& found);

}  // namespace hummock::openings

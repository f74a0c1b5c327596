// Is a top wide enough to stand on: no crest narrower than the animal's `perch`.
#pragma once

#include "engine/model/model.h"

namespace hummock::leap {

// A point of a top bears the animal where, within `perch` of it, there is a place round which, in
// eight directions, something lies within `perch`: a thing, the ground, no further below than the
// perch falls at the steeper of `stand_slope` and 45 degrees, or something that rises. So gaps (a
// bench's slats) and what stands beside count as top, and only what is narrower than half the perch
// on its own is surely none: in between it is taken for a place, the careful side.
bool wide_enough(const Model& model, geom::Vec3 p, double perch, double stand_slope);

}  // namespace hummock::leap

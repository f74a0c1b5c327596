// Is a top wide enough to stand on: no crest narrower than the animal's `perch`.
#pragma once

#include "engine/model/model.h"

namespace hummock::leap {

// A point of a top bears the animal where, within `perch` of it, there is a place round which the
// top is as wide as the perch along every one of sixteen axes: the widths are from the farthest
// thing to rest on on the one side to that on the other, looked for as far as the perch on either.
// To rest on is a thing, or the ground, no further below than the perch falls at the steeper of
// `stand_slope` and 45 degrees, and no further above than the perch; what rises more holds the
// animal there, and counts as the whole perch. So gaps (a bench's slats), what stands beside and
// the back of a log count as top. A fence's sheet that rises from the top bears no foot: the top
// ends at it. Between two axes a straight rail is wider by 0.5 % at most, its rim is found to 1/128
// of the perch, and 2 % less than the perch is taken for as wide: the careful side.
bool wide_enough(const Model& model, geom::Vec3 p, double perch, double stand_slope);

}  // namespace hummock::leap

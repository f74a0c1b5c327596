// What a "no way out" may rest on of the animal's own figures (premises.h).
#pragma once

#include <string>
#include <vector>

#include "engine/leap/rows/premises.h"

namespace hummock::leap {

// The leap, the numbers of the body, what it climbs and whether it swims: those that have a careful
// end beyond the used one. A careful end is the file's `careful` (one of the other side counts as
// none), or what another record of the figure says beyond that. Where there is neither and nobody
// has shown the figure, the leap's height and distance are taken kStronger times, as are grip and
// the share leapt from a face (0.1 m and a half where none is told); slopes and depths a quarter
// more; crouch, reach, perch and the leap from water as where the file leaves them out; overhangs
// climbed to kCarefulPastUpright; and "does not swim" as swimming, where the site has water. What
// it climbs: climbing_premise.h.
std::vector<Premise> figure_premises(const Model& model);
// The leap alone: higher, or farther where that alone is unsure.
std::optional<Premise> leap_premise(const Species& species);

// Some other record of it says yes.
bool another_says_yes(const Sourced<bool>& figure);
// A share of the way from the used value to the careful one.
double between(double used, double careful, double share);
// A value at which it still holds: in hundredths (or other parts of one), rounded towards the used
// one.
std::string holding(double used, double careful, double value, double parts_of_one = 100.0);

}  // namespace hummock::leap

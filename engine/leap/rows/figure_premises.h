// What a "no way out" may rest on of the animal's own figures (premises.h).
#pragma once

#include <string>
#include <vector>

#include "engine/leap/rows/premises.h"

namespace hummock::leap {

// The leap, the numbers of the body, what it climbs and whether it swims: those that have a careful
// end beyond the used one. A careful end is the file's `careful`, or what another record of the
// figure says beyond that. Where there is neither, an unsure leap height or distance is taken
// kStronger times, and an unsure "does not swim" as swimming, where the site has water.
std::vector<Premise> figure_premises(const Model& model);

// Some other record of it says yes.
bool another_says_yes(const Sourced<bool>& figure);
// A share of the way from the used value to the careful one.
double between(double used, double careful, double share);
// A value at which it still holds: in hundredths, rounded towards the used one.
std::string holding(double used, double careful, double value);

}  // namespace hummock::leap

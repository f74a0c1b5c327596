// A check in two halves: what answers at once, and what takes its time.
//
// After a change the quick analyses are shown as soon as they are done, beside the slow ones'
// figures of before the change, which are marked as such until their own half is done.
#pragma once

#include <set>
#include <string>

#include "engine/check/check.h"

namespace hummock::viewer {

// Names of the analyses that take longer than a blink on a yard, by the list of analyses.
const std::set<std::string>& slow_analyses();
std::set<std::string> quick_analyses();

// Takes over the results of `names` from `from`, with their rows of the brief and their reasons for
// not having run. Both must be of briefs with the same requirements in the same order; if they are
// not (the site's own requirements were edited), rows stay as they are in `into`.
void take_over(CheckResults& into, const CheckResults& from, const std::set<std::string>& names);

}  // namespace hummock::viewer

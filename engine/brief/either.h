// Sets of rows of which one must be met as a whole.
//
// A set stands as the worst of its rows that must be met and are asked on this site; one of which
// nothing is asked here does not count as met. The either stands as the best of its sets.
#pragma once

#include <vector>

#include "engine/brief/brief.h"

namespace hummock {

// Sets the standing, the ifs and the sets' standings of every row of kind `either` from the rows of
// its sets. To be asked again whenever one of these changed.
void settle_eithers(std::vector<BriefRow>& rows);

}  // namespace hummock

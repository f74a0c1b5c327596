// The escape demand as one number, and the same table for a weaker and a stronger animal.
//
// Both leap figures are scaled by the same share, so the stretch s and with it every effort stays
// as it is; the grip and the cling share too. The demand is then a property of the site and the
// animal's build, and each row of the table compares it with another leap height.
#pragma once

#include <vector>

#include "engine/leap/rows/objects.h"

namespace hummock::leap {

inline constexpr double kSweepShares[] = {0.75, 0.9,  1.0,
                                          1.1,  1.25, 1.5};  // common practice, no source

std::vector<Result::SweepRow> sweep(const Species& species, const Result& result);

// Each stretch of barrier and roof, by rising demand.
std::vector<WayRow> ways(const SearchContext& scene);

}  // namespace hummock::leap

// The cheapest way out of the whole site, with its route and bounds; and where a full leap strikes
// the roof. What leap.h promises of `escape_leap_m`, `bounded_below_m` and `resolution_bound_m`.
#pragma once

#include "engine/leap/places/places.h"
#include "engine/leap/rows/objects.h"

namespace hummock::leap {

void tell_escape(const SearchContext& scene, const PlaceRules& rules, double square_side,
                 Result& result);
// Is it flown from end to end? A place that was taken as gained for want of an end leaves the way
// out a bound from below.
bool none_assumed(const std::vector<Step>& route);
void tell_roof_strike(const SearchContext& scene, Result& result);
// Only the rows nearest to a way out; 0 = all.
void keep_nearest_rows(int most, Result& result);

}  // namespace hummock::leap

// The days of the hot season on which other plants stand bare than on the design day.
//
// Shade at the hottest hours is asked of the hot season, not of one day: a tree that drops its
// leaves in July gives none in the hottest weeks. The season runs from kBeforeNoon days before the
// (first) highest noon to kAfterNoon days after the (last) one, of that summer: 22 May to 19
// September north of the tropics. Air is hottest some weeks after the sun stands highest: common
// practice, no source. Of every set of plants that stand bare together in it, with one among them
// that is in leaf on the design day, the day nearest a highest noon is taken.
//
// Limits: later in such a spell the sun stands lower, and shadows fall farther: less of the yard
// may be shaded than on that day by what stands near its edge. What is bare earlier in the year
// than the season is not asked.
#pragma once

#include <vector>

#include "engine/site/site.h"
#include "engine/sun/sun.h"

namespace hummock {

inline constexpr int kBeforeNoon = 30;  // days; common practice, no source
inline constexpr int kAfterNoon = 90;   // days; common practice, no source

// How many plants stand bare on that day.
int bare_on(const Site& site, const sun::Date& date);
// In the order of the year; none without a place.
std::vector<sun::Date> other_hot_days(const Site& site, const sun::Date& design);

}  // namespace hummock

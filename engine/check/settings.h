// What a check was asked for, and the settings that follow from it for each analysis.
//
// `resolve` is the only place where the two meet: command, map, report and viewer take an analysis'
// settings from it, so that the same question has the same answer everywhere. Results carry the
// settings they were computed with.
#pragma once

#include <optional>
#include <set>
#include <string>

#include "engine/dig/dig.h"
#include "engine/entry/entry.h"
#include "engine/leap/leap.h"
#include "engine/relief/relief.h"
#include "engine/shade/shade.h"
#include "engine/sight/sight.h"
#include "engine/site/site.h"

namespace hummock {

struct CheckOptions {
  std::set<std::string> only;     // analysis names; empty = all
  std::optional<sun::Date> date;  // design day; default see design_day
  double shade_step_minutes = 10.0;
  double clock_hours = 12.0;  // local clock, for the map layer of one moment's shade
  leap::Settings leap;
  // The careful ends of what is assumed are solved too (engine/leap/rows/rests_on.h).
  bool explore = true;
};

struct EffectiveSettings {
  std::set<std::string> only;
  relief::Settings relief;
  leap::Settings leap;
  dig::Settings dig;
  entry::Settings entry;
  shade::Settings shade;
  sight::Settings sight;
  double clock_hours = 12.0;
  bool explore = true;
};

EffectiveSettings resolve(const Site& site, const CheckOptions& options = {});

// The day the sun is checked on: as asked, else the day of 2026 whose noon sun stands highest, when
// things cast the shortest shadows: midsummer of the site's hemisphere, between the tropics one of
// the two days on which the sun passes overhead: the one on which more of what is planted stands
// bare, else the first. Shade at the hottest hours is also asked of the days of the hot season on
// which other plants stand bare (engine/check/hot_season.h), where no day is asked for. Other days
// may have less shade still (a roof whose shadow falls outside).
sun::Date design_day(const Site& site, const CheckOptions& options);

}  // namespace hummock

// Runs the analyses a check asks for and holds their results together.
//
// An analysis that was not asked for or cannot be (no [place] for shade) stays empty; a requirement
// on it is then `not checked`, with the reason.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/burrows/burrows.h"
#include "engine/dig/dig.h"
#include "engine/earthworks/earthworks.h"
#include "engine/entry/entry.h"
#include "engine/houses/houses.h"
#include "engine/leap/leap.h"
#include "engine/model/model.h"
#include "engine/openings/openings.h"
#include "engine/quantities/quantities.h"
#include "engine/relief/relief.h"
#include "engine/shade/shade.h"
#include "engine/sight/sight.h"
#include "engine/space/space.h"
#include "engine/water/water.h"

namespace hummock {

struct CheckOptions {
  std::set<std::string> only;  // analysis names; empty = all
  std::optional<sun::Date>
      date;  // design day; default 21 June (north) or 21 December (south) of 2026
  double shade_step_minutes = 10.0;
  double clock_hours = 12.0;  // local clock, for the map layer of one moment's shade
  leap::Settings leap;
};

struct CheckResults {
  std::optional<relief::Result> relief;
  std::optional<space::Result> space;
  std::optional<leap::Result> leap;
  std::optional<dig::Result> dig;
  std::optional<openings::Result> openings;
  std::optional<entry::Result> entry;
  std::optional<shade::Day> shade;
  std::optional<sight::Result> sight;
  std::optional<water::Result> water;
  std::optional<earthworks::Result> earthworks;
  std::optional<std::vector<quantities::Row>> quantities;
  std::optional<houses::Result> houses;
  std::optional<burrows::Result> burrows;
  std::map<std::string, std::string> not_run;  // analysis → why
  std::vector<BriefRow> brief;
  std::vector<std::pair<std::string, double>> seconds;  // stage timers; never in the JSON
};

// Names of all analyses, in the order they run and are shown.
const std::vector<std::string>& analysis_names();

// The day the sun is checked on: as asked, else midsummer of the site's hemisphere, when the sun is
// strongest and shade scarcest at noon.
sun::Date design_day(const Site& site, const CheckOptions& options);

// The leap settings of a check: as given, with the largest margin that any requirement on
// `leap.margin` asks for, so that remedies and the height cap meet the brief.
leap::Settings leap_settings(const Site& site, const CheckOptions& options);

// Throws InputError when `only` names something unknown.
CheckResults run_check(const Model& model, const CheckOptions& options = {},
                       const Progress& progress = {});

}  // namespace hummock

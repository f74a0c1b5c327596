// What a check found: the result of each analysis that ran, and what the brief makes of them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/burrows/burrows.h"
#include "engine/check/other_results.h"
#include "engine/check/settings.h"
#include "engine/earthworks/earthworks.h"
#include "engine/houses/houses.h"
#include "engine/openings/openings.h"
#include "engine/quantities/quantities.h"
#include "engine/space/space.h"
#include "engine/water/water.h"

namespace hummock {

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
  OtherResults others;  // of analyses that nothing reads by name

  EffectiveSettings settings;               // what they were computed with
  std::map<std::string, NotRun> not_run;    // analysis → why
  std::map<std::string, RestsOn> rests_on;  // analysis → what its answer rests on
  std::vector<BriefRow> brief;
  std::vector<std::pair<std::string, double>> seconds;  // stage timers; never in the JSON
};

}  // namespace hummock

// When a row is asked: the conditions of its `when` held against the site.
//
// season     Figures that are of no day hold in every season and are judged as they are. Those of
//            the sun are of certain days: they are judged where all of these are in the season,
//            else the row cannot be judged (a check with `--date` of a day in it can).
// offspring  So unless the site says `offspring = 0`: not said is taken as some.
// below      So where the climate file has an hour strictly below. Not so only where that file is a
//            whole year of hours; a colder year than the file's is not looked for. Without such a
//            file it cannot be judged.
//
// Of several all must be so; one that is not so is enough for the row not to be asked. A row whose
// `when` cannot be judged is not met, whatever its figure.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/brief/brief.h"
#include "engine/sun/sun.h"

namespace hummock {

struct Circumstances {
  std::vector<sun::Date> days;    // that figures of these analyses are of
  std::set<std::string> of_days;  // "shade"
  std::optional<double> coldest;  // °C, the least of the climate file
  bool whole_year = false;        // the climate file is a year of hours
};

// Changes the standing of the rows whose `when` is not so or cannot be judged.
void apply_when(const Site& site, const Circumstances& now, std::vector<BriefRow>& rows);

// "in the season 11-01 to 04-01, where young are expected, where it gets colder than 5 °C"
std::string in_words(const When& when);

// May both be so at once on this site? Seasons apart from each other may not.
bool at_once(const Site& site, const std::optional<When>& a, const std::optional<When>& b);

}  // namespace hummock

// When the lamps of a house are on, day by day, so that they follow the sun through the year.
//
// Model. A day's lamps go on `before` hours ahead of sunrise and off `after` hours past sunset;
// what is then shorter than `least` or longer than `most` is made so, by the same at either end; no
// day has more than 24 hours. Sunrise and sunset are those of almanacs (engine/sun/sun.h: a free
// horizon, 34′ of refraction) at the site's longitude and the latitude that is followed, so that
// noon stays the site's own and a southern latitude has its own seasons. A day runs from one solar
// midnight to the next; where the sun does not set it lasts 24 hours, where it does not rise 0.
// What it is not: how bright it is, what windows let in, or how a lamp is dimmed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"
#include "engine/sun/sun.h"

namespace hummock::houses {

struct LightDay {
  sun::Date date;
  std::optional<sun::Instant> sunrise, sunset;  // of the latitude followed
  std::optional<sun::Instant> on, off;          // nothing when no lamp goes on
  double hours = 0.0;                           // 0..24
};

inline constexpr int kLightYear = 2026;  // without another; common practice, no source

// One day.
LightDay light_of(const HouseLight& light, const Place& place, const sun::Date& date);

// Every day of the year, 1 January first.
std::vector<LightDay> light_of_year(const HouseLight& light, const Place& place, int year);

// The shortest and the longest day of light, hours: of the days within a week of the solstices,
// where day length has its extremes at any latitude.
struct LightRange {
  double shortest = 0.0, longest = 0.0;
};
LightRange light_range(const HouseLight& light, const Place& place, int year);

// `house,date,sunrise,sunset,on,off,hours`, a row for each lit house and day; times by the place's
// clock, ISO 8601 with offset, empty where the sun does not rise or set, or no lamp goes on.
// Throws InputError: no place, no house with a light.
std::string light_csv(const Site& site, int year);

}  // namespace hummock::houses

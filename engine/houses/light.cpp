#include "engine/houses/light.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/csv_field.h"
#include "engine/base/input_error.h"

namespace hummock::houses {
namespace {

constexpr double kDay = 24.0;  // h

// The place whose days are followed, by its own noon: a day of it has one rise and one set at the
// most, whatever the clock of the site.
Place followed(const HouseLight& light, const Place& place) {
  Place p = sun::by_mean_noon(place);
  p.latitude = light.latitude.value_or(place.latitude);
  return p;
}

sun::Instant later(const sun::Instant& t, double hours) {
  return {t.ut_days + hours / kDay};
}

std::string stamp(const Place& place, const std::optional<sun::Instant>& when) {
  return when ? sun::iso(place, *when) : std::string();
}

}  // namespace

LightDay light_of(const HouseLight& light, const Place& place, const sun::Date& date) {
  const sun::RiseSet sun = sun::rise_set(followed(light, place), date);
  LightDay day;
  day.date = date;
  double before_noon = 0.0;  // h of sun
  double after_noon = 0.0;
  if (sun.sunrise && sun.sunset) {
    day.sunrise = sun.sunrise;
    day.sunset = sun.sunset;
    before_noon = (sun.transit.ut_days - sun.sunrise->ut_days) * kDay;
    after_noon = (sun.sunset->ut_days - sun.transit.ut_days) * kDay;
  } else if (sun.day_length_h > kDay / 2.0) {  // it does not set, or does at midnight only
    before_noon = after_noon = kDay / 2.0;
  }
  const bool sunny = before_noon + after_noon > 0.0;
  if (sunny) before_noon += light.before;
  if (sunny) after_noon += light.after;
  const double wanted = std::clamp(before_noon + after_noon, light.least, light.most);
  const double more = 0.5 * (wanted - before_noon - after_noon);
  day.hours = wanted;
  if (wanted <= 0.0) return day;
  day.on = later(sun.transit, -(before_noon + more));
  day.off = later(*day.on, wanted);
  return day;
}

std::vector<LightDay> light_of_year(const HouseLight& light, const Place& place, int year) {
  const int first = sun::day_number({year, 1, 1});
  const int end = sun::day_number({year, 12, 31}) + 1;
  std::vector<LightDay> days;
  for (int day = first; day < end; ++day) days.push_back(light_of(light, place, sun::date_of(day)));
  return days;
}

LightRange light_range(const HouseLight& light, const Place& place, int year) {
  constexpr int kDaysBeside = 7;
  LightRange range{kDay, 0.0};
  for (const int month : {6, 12}) {
    const int solstice = sun::day_number({year, month, 21});
    for (int day = solstice - kDaysBeside; day <= solstice + kDaysBeside; ++day) {
      const double hours = light_of(light, place, sun::date_of(day)).hours;
      range.shortest = std::min(range.shortest, hours);
      range.longest = std::max(range.longest, hours);
    }
  }
  return range;
}

std::string light_csv(const Site& site, int year) {
  std::string text = "house,date,sunrise,sunset,on,off,hours\n";
  bool any = false;
  for (const House& house : site.houses) {
    if (!house.light) continue;
    if (!site.place)
      throw InputError(house.light->where, "no table [place]", "a site with a place");
    any = true;
    for (const LightDay& d : light_of_year(*house.light, *site.place, year)) {
      text += fmt::format("{},{},{},{},{},{},{:.3f}\n", csv_field(house.name), sun::text(d.date),
                          stamp(*site.place, d.sunrise), stamp(*site.place, d.sunset),
                          stamp(*site.place, d.on), stamp(*site.place, d.off), d.hours);
    }
  }
  if (any) return text;
  throw InputError({site.file.string(), 0, "house"}, "no house with a table `light`",
                   "[[house]] with light = { before = 0.5, after = 0.5 }");
}

}  // namespace hummock::houses

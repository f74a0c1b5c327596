// The civil clock: dates, time zones, local times.
#include <date/date.h>
#include <date/tz.h>
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "engine/sun/sun.h"

namespace hummock::sun {
namespace {

constexpr int kFirstYear = 1900;
constexpr int kLastYear = 2100;
constexpr double kSecondsADay = 86400.0;

const date::sys_days kEpoch = date::sys_days{date::year{2000} / 1 / 1};

// Reads exactly `digits` digits at `at` and moves past them; nothing if there are fewer.
std::optional<int> take_number(const std::string& text, std::size_t& at, std::size_t digits) {
  if (at + digits > text.size()) return std::nullopt;
  int value = 0;
  for (std::size_t k = 0; k < digits; ++k) {
    const char c = text[at + k];
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  at += digits;
  return value;
}

bool take_char(const std::string& text, std::size_t& at, char c) {
  if (at >= text.size() || text[at] != c) return false;
  ++at;
  return true;
}

std::optional<Date> take_date(const std::string& text, std::size_t& at) {
  const auto y = take_number(text, at, 4);
  if (!y || !take_char(text, at, '-')) return std::nullopt;
  const auto m = take_number(text, at, 2);
  if (!m || !take_char(text, at, '-')) return std::nullopt;
  const auto d = take_number(text, at, 2);
  if (!d || *y < kFirstYear || *y > kLastYear) return std::nullopt;
  const date::year_month_day ymd{date::year{*y}, date::month{static_cast<unsigned>(*m)},
                                 date::day{static_cast<unsigned>(*d)}};
  if (!ymd.ok()) return std::nullopt;
  return Date{*y, *m, *d};
}

// Seconds ahead of UTC of "Z", "+01:00", "-07:00" at `at`; nothing if there is no such thing.
std::optional<int> take_offset(const std::string& text, std::size_t& at) {
  if (take_char(text, at, 'Z')) return 0;
  int sign = 0;
  if (take_char(text, at, '+')) {
    sign = 1;
  } else if (take_char(text, at, '-')) {
    sign = -1;
  } else {
    return std::nullopt;
  }
  const auto h = take_number(text, at, 2);
  if (!h || !take_char(text, at, ':')) return std::nullopt;
  const auto m = take_number(text, at, 2);
  if (!m || *h > 15 || *m > 59) return std::nullopt;
  return sign * (*h * 3600 + *m * 60);
}

std::optional<int> fixed_offset(const std::string& zone) {
  std::size_t at = 0;
  const auto seconds = take_offset(zone, at);
  if (!seconds || at != zone.size()) return std::nullopt;
  return seconds;
}

const date::time_zone* find_zone(const Place& place) {
  try {
    return date::locate_zone(place.time_zone);
  } catch (const std::runtime_error&) {
    Where where = place.where;
    where.key = where.key.empty() ? "place.time_zone" : where.key + ".time_zone";
    throw InputError(where, "\"" + place.time_zone + "\"",
                     "a fixed offset like \"+01:00\" or a zone like \"Europe/London\"");
  }
}

// The zone files list changes up to 2037; later years take the rules of a year with the same
// calendar (same leap day, same weekdays), which is exact as long as the rules stay.
int listed_year(int year) {
  if (year <= 2037) return year;
  const auto weekday = [](int y) {
    return date::weekday{date::sys_days{date::year{y} / 1 / 1}}.c_encoding();
  };
  for (int y = 2037; y > 2037 - 28; --y) {
    if (date::year{y}.is_leap() == date::year{year}.is_leap() && weekday(y) == weekday(year)) {
      return y;
    }
  }
  return 2037;
}

// Days to take off an instant in `year` to land in the listed year.
int shift_days(int year) {
  const int listed = listed_year(year);
  if (listed == year) return 0;
  return (date::sys_days{date::year{year} / 1 / 1} - date::sys_days{date::year{listed} / 1 / 1})
      .count();
}

date::sys_seconds to_sys(double ut_days) {
  return kEpoch + std::chrono::seconds{std::llround(ut_days * kSecondsADay)};
}

double offset_seconds(const Place& place, double ut_days) {
  if (const auto fixed = fixed_offset(place.time_zone)) return *fixed;
  const int year = date_of(static_cast<int>(std::floor(ut_days))).year;
  const auto when = to_sys(ut_days) - date::days{shift_days(year)};
  return static_cast<double>(find_zone(place)->get_info(when).offset.count());
}

[[noreturn]] void refuse(const Where& where, const std::string& found, const std::string& allowed) {
  throw InputError(where, found, allowed);
}

}  // namespace

Date parse_date(const std::string& text, const Where& where) {
  std::size_t at = 0;
  const auto date = take_date(text, at);
  if (!date || at != text.size()) {
    refuse(where, "\"" + text + "\"", "a date YYYY-MM-DD from 1900-01-01 to 2100-12-31");
  }
  return *date;
}

std::string text(const Date& d) {
  return fmt::format("{:04}-{:02}-{:02}", d.year, d.month, d.day);
}

int day_number(const Date& d) {
  const date::year_month_day ymd{date::year{d.year}, date::month{static_cast<unsigned>(d.month)},
                                 date::day{static_cast<unsigned>(d.day)}};
  return (date::sys_days{ymd} - kEpoch).count();
}

Date date_of(int number) {
  const date::year_month_day ymd{kEpoch + date::days{number}};
  return {static_cast<int>(ymd.year()), static_cast<int>(static_cast<unsigned>(ymd.month())),
          static_cast<int>(static_cast<unsigned>(ymd.day()))};
}

bool within(const Season& season, const Date& d) {
  const int now = d.month * 100 + d.day;
  const int from = season.from.month * 100 + season.from.day;
  const int to = season.to.month * 100 + season.to.day;
  return from <= to ? (now >= from && now <= to) : (now >= from || now <= to);
}

double utc_offset_h(const Place& place, Instant when) {
  return offset_seconds(place, when.ut_days) / 3600.0;
}

Place by_mean_noon(Place place) {
  constexpr double kMinutesADegree = 4.0;
  const int minutes =
      static_cast<int>(std::lround(place.longitude / geom::kDegree * kMinutesADegree));
  place.time_zone = fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', std::abs(minutes) / 60,
                                std::abs(minutes) % 60);
  return place;
}

Instant instant(const Place& place, Date d, double clock_hours) {
  const double local = day_number(d) + clock_hours / 24.0;
  if (const auto fixed = fixed_offset(place.time_zone)) return {local - *fixed / kSecondsADay};
  const int shift = shift_days(date_of(static_cast<int>(std::floor(local))).year);
  const date::local_seconds wanted{to_sys(local - shift).time_since_epoch()};
  // `first` holds before any change: the earlier of two, and the old clock for a skipped time.
  const auto info = find_zone(place)->get_info(wanted);
  return {local - static_cast<double>(info.first.offset.count()) / kSecondsADay};
}

Date local_date(const Place& place, Instant when) {
  const double local = when.ut_days + utc_offset_h(place, when) / 24.0;
  return date_of(static_cast<int>(std::floor(local)));
}

std::string clock(const Place& place, Instant when) {
  const double offset = utc_offset_h(place, when);
  const auto minutes = std::llround((when.ut_days + offset / 24.0) * 1440.0);
  const auto day = static_cast<int>(std::floor(static_cast<double>(minutes) / 1440.0));
  const auto of_day = static_cast<int>(minutes - static_cast<long long>(day) * 1440);
  const int zone = static_cast<int>(std::lround(offset * 60.0));
  return fmt::format("{} {:02}:{:02} {}{:02}:{:02}", text(date_of(day)), of_day / 60, of_day % 60,
                     zone < 0 ? '-' : '+', std::abs(zone) / 60, std::abs(zone) % 60);
}

std::string iso(const Place& place, Instant when) {
  std::string text = clock(place, when);
  text.erase(16, 1);
  text[10] = 'T';
  return text;
}

std::string clock_short(const Place& place, Instant when) {
  return clock(place, when).substr(11, 5);
}

Instant parse_time(const std::string& text, const Place& place, const Where& where) {
  const char* allowed = "a time like 2026-06-21T13:40 or 2026-06-21T13:40:00+01:00";
  const auto bad = [&] { refuse(where, "\"" + text + "\"", allowed); };
  std::size_t at = 0;
  const auto day = take_date(text, at);
  if (!day || !(take_char(text, at, 'T') || take_char(text, at, ' '))) bad();
  const auto h = take_number(text, at, 2);
  if (!h || !take_char(text, at, ':')) bad();
  const auto m = take_number(text, at, 2);
  if (!m || *h > 23 || *m > 59) bad();
  std::optional<int> s = 0;
  if (take_char(text, at, ':')) s = take_number(text, at, 2);
  if (!s || *s > 59) bad();
  const double hours = *h + *m / 60.0 + *s / 3600.0;
  take_char(text, at, ' ');
  if (at == text.size()) return instant(place, *day, hours);
  const auto zone = take_offset(text, at);
  if (!zone || at != text.size()) bad();
  return {day_number(*day) + (hours - *zone / 3600.0) / 24.0};
}

void check_place(const Place& place) {
  const auto check = [&](double value, double lo, double hi, const char* key, const char* unit) {
    if (value >= lo && value <= hi) return;
    Where where = place.where;
    where.key = std::string(where.key.empty() ? "place" : where.key) + "." + key;
    refuse(where, fmt::format("{}", value),
           fmt::format("a number from {} to {} ({})", lo, hi, unit));
  };
  check(place.latitude / geom::kDegree, -90.0, 90.0, "latitude", "degrees north");
  check(place.longitude / geom::kDegree, -180.0, 180.0, "longitude", "degrees east");
  check(place.elevation, -500.0, 9000.0, "elevation", "m");
  if (place.pressure != 0.0) check(place.pressure, 200.0, 1200.0, "pressure", "hPa");
  check(place.temperature, -80.0, 60.0, "temperature", "°C");
  if (!fixed_offset(place.time_zone)) find_zone(place);
}

}  // namespace hummock::sun

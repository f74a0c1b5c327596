#include "viewer/app/show/day.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace hummock::viewer {
namespace {

constexpr std::array<int, 12> kDays{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr std::array<const char*, 12> kMonths{"January",   "February", "March",    "April",
                                              "May",       "June",     "July",     "August",
                                              "September", "October",  "November", "December"};
constexpr double kHoursPerSecond = 1.5;
constexpr double kDaysPerSecond = 24.0;

bool leap_year(int year) {
  return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

}  // namespace

int days_in_year(int year) {
  return leap_year(year) ? 366 : 365;
}

sun::Date date_of(const DayTime& time) {
  int left = std::clamp(time.day, 1, days_in_year(time.year));
  for (int month = 0; month < 12; ++month) {
    const int days =
        kDays[static_cast<std::size_t>(month)] + (month == 1 && leap_year(time.year) ? 1 : 0);
    if (left <= days) return {time.year, month + 1, left};
    left -= days;
  }
  return {time.year, 12, 31};
}

std::string date_words(const DayTime& time) {
  const sun::Date date = date_of(time);
  return std::to_string(date.day) + " " + kMonths[static_cast<std::size_t>(date.month - 1)];
}

std::string hour_words(double hour) {
  const int minutes = static_cast<int>(std::lround(hour * 60.0));
  char text[16];
  std::snprintf(text, sizeof text, "%02d:%02d", minutes / 60 % 24, minutes % 60);
  return text;
}

std::optional<sun::Position> sun_now(const Session& s) {
  const Model* m = model(s);
  if (m == nullptr || !m->site.place) return std::nullopt;
  const sun::Date date = date_of(s.time);
  return sun::position(*m->site.place, sun::instant(*m->site.place, date, s.time.hour));
}

void update_sun(Session& s) {
  const auto sun = sun_now(s);
  s.draw.to_sun = sun ? sun->towards : geom::unit(Vec3{-0.5, -0.6, 0.8});
  s.redraw = true;
}

void set_hour(Session& s, double hour) {
  s.time.hour = std::clamp(hour, 0.0, 24.0 - 1.0 / 60.0);
  update_sun(s);
  s.ask_at = s.now + 0.25;
}

void set_day(Session& s, int day) {
  s.time.day = std::clamp(day, 1, days_in_year(s.time.year));
  update_sun(s);
  s.ask_at = s.now + 0.35;
}

bool play(Session& s, double seconds) {
  if (!s.time.play_day && !s.time.play_year) return false;
  if (s.time.play_day) {
    s.time.hour = std::fmod(s.time.hour + kHoursPerSecond * seconds, 24.0);
  }
  if (s.time.play_year) {
    s.time.day_run += kDaysPerSecond * seconds;
    const int whole = static_cast<int>(s.time.day_run);
    s.time.day_run -= whole;
    s.time.day = (s.time.day - 1 + whole) % days_in_year(s.time.year) + 1;
  }
  update_sun(s);
  s.ask_at = s.now + 0.35;
  return true;
}

}  // namespace hummock::viewer

// Apparent topocentric sun through ERFA.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/site/site.h"
#include "geometry/vec.h"

namespace hummock::sun {

struct Date {
  int year = 2000, month = 1, day = 1;
  friend bool operator==(const Date&, const Date&) = default;
};
// Parses YYYY-MM-DD, years 1900..2100. Throws InputError with `where`.
Date parse_date(const std::string& text, const Where& where);

// An instant: UT1 taken as UTC (see sun.cpp), as days since 2000-01-01 00:00.
struct Instant {
  double ut_days = 0.0;
};

struct Position {
  Instant when;
  double azimuth = 0.0;    // rad clockwise from true north
  double elevation = 0.0;  // rad, apparent (with refraction)
  double geometric = 0.0;  // rad, without refraction
  double distance_au = 1.0;
  // Unit vector to the sun in the model's axes (x east … turned by grid_north, z up).
  Vec3 towards;
};
Position position(const Place& place, Instant when);

enum class DayKind { rises_and_sets, up_all_day, down_all_day };
struct RiseSet {
  DayKind kind = DayKind::rises_and_sets;
  std::optional<Instant> sunrise, sunset;
  Instant transit;
  double day_length_h = 0;
};
// The civil day `date` of the place's own clock.
RiseSet rise_set(const Place& place, Date date);

// Local clock of an instant: "2026-06-21 13:40 +01:00", and "13:40".
std::string clock(const Place& place, Instant when);
std::string clock_short(const Place& place, Instant when);
Instant instant(const Place& place, Date date, double clock_hours);

}  // namespace hummock::sun

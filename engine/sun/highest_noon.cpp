#include "engine/sun/highest_noon.h"

#include <cmath>

namespace hummock::sun {
namespace {

constexpr double kObliquity = 23.436 * geom::kDegree;  // of 2026, IAU 2006; from memory

// The day from `first` to `last` whose noon sun passes nearest overhead; of like ones the first.
Date nearest_overhead(double latitude, double longitude, const Date& first, const Date& last) {
  Date best = first;
  double least = 1e300;
  for (int day = day_number(first); day <= day_number(last); ++day) {
    const double noon = day + 0.5 - longitude / (2.0 * geom::kPi);
    const double off = std::abs(latitude - declination({noon}));
    if (off >= least) continue;
    least = off;
    best = date_of(day);
  }
  return best;
}

}  // namespace

double declination(Instant when) {
  const double days = when.ut_days - 0.5;  // from noon of 2000-01-01
  const double mean = (280.460 + 0.9856474 * days) * geom::kDegree;
  const double anomaly = (357.528 + 0.9856003 * days) * geom::kDegree;
  const double ecliptic =
      mean + (1.915 * std::sin(anomaly) + 0.020 * std::sin(2.0 * anomaly)) * geom::kDegree;
  return std::asin(std::sin(kObliquity) * std::sin(ecliptic));
}

std::array<Date, 2> highest_noons(double latitude, double longitude, int year) {
  const Date june{year, 6, 21}, december{year, 12, 21};
  if (latitude >= kObliquity) return {june, june};
  if (latitude <= -kObliquity) return {december, december};
  // North to the June solstice, south to the December one.
  return {nearest_overhead(latitude, longitude, {year, 1, 1}, june),
          nearest_overhead(latitude, longitude, june, december)};
}

}  // namespace hummock::sun

// Sunrise, transit and sunset within a civil day.
#include <cmath>
#include <utility>

#include "engine/sun/sun.h"

namespace hummock::sun {
namespace {

constexpr double kRiseAltitude = -0.83337 * geom::kDegree;  // 0.5667° refraction, 0.26667° radius
constexpr double kSample = 5.0 / 1440.0;                    // days
constexpr int kHalvings = 40;                               // 5 minutes to well below a microsecond

// Where the altitude passes the limit between a and b, which lie on different sides of it.
double crossing(const Track& track, double a, double b) {
  const bool up_at_a = track.altitude({a}) > kRiseAltitude;
  for (int k = 0; k < kHalvings; ++k) {
    const double middle = 0.5 * (a + b);
    ((track.altitude({middle}) > kRiseAltitude) == up_at_a ? a : b) = middle;
  }
  return 0.5 * (a + b);
}

// The extremum within (a, b) of an altitude with a single one there.
double extremum(const Track& track, double a, double b, double sign) {
  for (int k = 0; k < 60; ++k) {
    const double m1 = a + (b - a) / 3.0;
    const double m2 = b - (b - a) / 3.0;
    if (sign * track.altitude({m1}) < sign * track.altitude({m2})) {
      a = m1;
    } else {
      b = m2;
    }
  }
  return 0.5 * (a + b);
}

// Sample times over the day, with the moments of greatest and least altitude put in, so that a
// sun that only just shows itself is not missed.
std::vector<double> sample_times(const Track& track, double from, double to) {
  const int steps = static_cast<int>(std::ceil((to - from) / kSample));
  std::vector<double> even;
  std::vector<double> altitude;
  for (int k = 0; k <= steps; ++k) {
    even.push_back(k == steps ? to : from + k * kSample);
    altitude.push_back(track.altitude({even.back()}));
  }
  std::vector<double> times;
  for (std::size_t k = 0; k < even.size(); ++k) {
    if (k > 0 && k + 1 < even.size()) {
      const bool top = altitude[k] >= altitude[k - 1] && altitude[k] > altitude[k + 1];
      const bool bottom = altitude[k] <= altitude[k - 1] && altitude[k] < altitude[k + 1];
      if (top || bottom) {
        times.push_back(extremum(track, even[k - 1], even[k + 1], top ? 1.0 : -1.0));
        if (times.back() > even[k]) std::swap(times.back(), even[k]);
      }
    }
    times.push_back(even[k]);
  }
  return times;
}

struct CivilDay {
  double from, to;
};
CivilDay civil_day(const Place& place, Date date) {
  return {instant(place, date, 0.0).ut_days,
          instant(place, date_of(day_number(date) + 1), 0.0).ut_days};
}

std::vector<Span> spans(const Track& track, CivilDay day) {
  std::vector<Span> result;
  const std::vector<double> times = sample_times(track, day.from, day.to);
  bool up = track.altitude({day.from}) > kRiseAltitude;
  if (up) result.push_back({{day.from}, {day.to}});
  for (std::size_t k = 1; k < times.size(); ++k) {
    if ((track.altitude({times[k]}) > kRiseAltitude) == up) continue;
    const Instant when{crossing(track, times[k - 1], times[k])};
    if (up) {
      result.back().to = when;
    } else {
      result.push_back({when, {day.to}});
    }
    up = !up;
  }
  return result;
}

Instant transit(const Track& track, CivilDay day) {
  const auto solve = [&](double t) {
    for (int k = 0; k < 4; ++k) t -= track.hour_angle({t}) / (2.0 * geom::kPi);
    return t;
  };
  double t = solve(0.5 * (day.from + day.to));
  if (t < day.from && t + 1.0 <= day.to + 0.01) t = solve(t + 1.0);
  if (t > day.to && t - 1.0 >= day.from - 0.01) t = solve(t - 1.0);
  return {t};
}

}  // namespace

std::vector<Span> up_spans(const Place& place, Date date) {
  const CivilDay day = civil_day(place, date);
  return spans(Track(place, {day.from}, {day.to}), day);
}

RiseSet rise_set(const Place& place, Date date) {
  const CivilDay day = civil_day(place, date);
  const Track track(place, {day.from}, {day.to});
  RiseSet result;
  result.transit = transit(track, day);
  const std::vector<Span> up = spans(track, day);
  for (const Span& s : up) {
    result.day_length_h += (s.to.ut_days - s.from.ut_days) * 24.0;
    if (!result.sunrise && s.from.ut_days > day.from) result.sunrise = s.from;
    // The set that follows the rise, if the day has one; else the one before it.
    const bool sets = s.to.ut_days < day.to;
    if (sets &&
        (!result.sunset || (result.sunrise && result.sunset->ut_days < result.sunrise->ut_days))) {
      result.sunset = s.to;
    }
  }
  if (!result.sunrise && !result.sunset) {
    result.kind = up.empty() ? DayKind::down_all_day : DayKind::up_all_day;
  }
  return result;
}

}  // namespace hummock::sun

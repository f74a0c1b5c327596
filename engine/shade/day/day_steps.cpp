#include "engine/shade/day/day_steps.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {
namespace {

// A time just after rise or before set, when only the upper limb shows, is left out: its
// neighbour stands for it.
std::vector<double> times_in(const sun::Span& span, double midnight, double step,
                             const sun::Track& track) {
  std::vector<double> times;
  const double first = std::ceil((span.from.ut_days - midnight) / step - 1e-9);
  for (double k = first; midnight + k * step < span.to.ut_days; k += 1.0) {
    const double t = midnight + k * step;
    if (track.at({t}).elevation > kLowestSun) times.push_back(t);
  }
  if (times.empty()) times.push_back(0.5 * (span.from.ut_days + span.to.ut_days));
  return times;
}

}  // namespace

sun::Track track_over(const Place& place, sun::Date first, sun::Date last) {
  return {place, sun::instant(place, first, 0.0),
          sun::instant(place, sun::date_of(sun::day_number(last) + 1), 0.0)};
}

std::vector<Step> day_steps(const Place& place, sun::Date date, double minutes,
                            const sun::Track& track) {
  std::vector<Step> steps;
  const double midnight = sun::instant(place, date, 0.0).ut_days;
  for (const sun::Span& span : sun::up_spans(place, date)) {
    const std::vector<double> times = times_in(span, midnight, minutes / 1440.0, track);
    for (std::size_t k = 0; k < times.size(); ++k) {
      const double from = k == 0 ? span.from.ut_days : 0.5 * (times[k - 1] + times[k]);
      const double to = k + 1 == times.size() ? span.to.ut_days : 0.5 * (times[k] + times[k + 1]);
      Step s;
      s.sun = track.at({times[k]});
      s.hours = (to - from) * 24.0;
      s.solar_clock = 12.0 + track.hour_angle({times[k]}) * 12.0 / geom::kPi;
      steps.push_back(s);
    }
  }
  return steps;
}

std::vector<Step> day_steps(const Place& place, sun::Date date, double minutes) {
  return day_steps(place, date, minutes, track_over(place, date, date));
}

}  // namespace hummock::shade

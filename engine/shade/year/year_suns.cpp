#include "engine/shade/year/year_suns.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "engine/shade/year/sun_grid.h"

namespace hummock::shade {
namespace {

std::vector<std::vector<Step>> steps_by_day(const Place& place, int year, double step_minutes) {
  const int first = sun::day_number({year, 1, 1});
  const int last = sun::day_number({year, 12, 31});
  const sun::Track track = track_over(place, {year, 1, 1}, {year, 12, 31});
  std::vector<std::vector<Step>> days(static_cast<std::size_t>(last - first + 1));
  tbb::parallel_for(std::size_t{0}, days.size(), [&](std::size_t d) {
    days[d] = day_steps(place, sun::date_of(first + static_cast<int>(d)), step_minutes, track);
  });
  return days;
}

// The states in the order in which the year first shows them.
class LeafStates {
 public:
  std::size_t of(const FastBeam& fast, const sun::Date& date) {
    const std::vector<bool> bare = fast.bare_at(date);
    const auto at = std::find(seen_.begin(), seen_.end(), bare);
    if (at != seen_.end()) return static_cast<std::size_t>(at - seen_.begin());
    seen_.push_back(bare);
    days.push_back(date);
    return seen_.size() - 1;
  }
  std::vector<sun::Date> days;

 private:
  std::vector<std::vector<bool>> seen_;
};

}  // namespace

YearSuns suns_of_steps(const Place& place, const std::vector<YearStep>& steps) {
  YearSuns out;
  for (const YearStep& s : steps)
    out.suns.push_back({sun_ray(place, s.sun), s.sun.azimuth, s.sun.elevation, {s.hours}});
  return out;
}

YearSuns year_suns(const FastBeam& fast, const Place& place, int year, double step_minutes,
                   bool every_step) {
  const int first = sun::day_number({year, 1, 1});
  const std::vector<std::vector<Step>> days = steps_by_day(place, year, step_minutes);
  LeafStates leaves;
  std::vector<YearStep> steps;
  std::size_t all = 0;
  for (std::size_t d = 0; d < days.size(); ++d) {
    const sun::Date date = sun::date_of(first + static_cast<int>(d));
    const SunHours of_day{leaves.of(fast, date), static_cast<std::size_t>(date.month - 1), 0.0};
    all += days[d].size();
    for (const Step& s : days[d]) {
      if (!sun_ray(place, s.sun).up) continue;
      steps.push_back({s.sun, of_day});
      steps.back().hours.hours = s.hours;
    }
  }
  YearSuns out;
  if (!every_step) out = suns_on_grid(place, steps, step_minutes);
  const bool on_grid = !every_step && 2 * out.suns.size() < steps.size();
  if (!on_grid) out = suns_of_steps(place, steps);
  out.on_grid = on_grid;
  out.leaves = leaves.days;
  out.steps = all;
  return out;
}

}  // namespace hummock::shade

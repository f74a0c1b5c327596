#include "engine/shade/sky/sky_bins.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace hummock::shade {
namespace {

// Sides of a patch in azimuth and elevation. Low suns' shadows move far for little, so patches are
// flatter there: equal steps of log tan would be too many, of elevation too few.
constexpr double kAzimuthSide = 3.0 * geom::kDegree;
constexpr double kElevationSide = 1.5 * geom::kDegree;

void close(SkyBin& bin) {
  Vec2 sum;
  bin.run = {bin.suns.front().ray.run, bin.suns.front().ray.run};
  for (const YearSun& s : bin.suns) {
    const Vec2 r = s.ray.run;
    bin.run.lo = {std::min(bin.run.lo.x, r.x), std::min(bin.run.lo.y, r.y)};
    bin.run.hi = {std::max(bin.run.hi.x, r.x), std::max(bin.run.hi.y, r.y)};
    sum = sum + unit(r);
    bin.month_hours[static_cast<std::size_t>(s.date.month - 1)] += s.hours;
  }
  bin.along = unit(sum);
}

}  // namespace

std::vector<SkyBin> year_bins(const Place& place, int year, double step_minutes,
                              std::size_t& steps) {
  const int first = sun::day_number({year, 1, 1});
  const int last = sun::day_number({year, 12, 31});
  const sun::Track track = track_over(place, {year, 1, 1}, {year, 12, 31});
  std::vector<std::vector<Step>> days(static_cast<std::size_t>(last - first + 1));
  tbb::parallel_for(std::size_t{0}, days.size(), [&](std::size_t d) {
    days[d] = day_steps(place, sun::date_of(first + static_cast<int>(d)), step_minutes, track);
  });
  std::map<std::pair<int, int>, SkyBin> bins;
  steps = 0;
  for (std::size_t d = 0; d < days.size(); ++d) {
    const sun::Date date = sun::date_of(first + static_cast<int>(d));
    steps += days[d].size();
    for (const Step& s : days[d]) {
      const SunRay ray = sun_ray(place, s.sun);
      if (!ray.up) continue;
      const std::pair key{static_cast<int>(std::floor(s.sun.azimuth / kAzimuthSide)),
                          static_cast<int>(std::floor(s.sun.elevation / kElevationSide))};
      bins[key].suns.push_back({ray, date, s.hours});
    }
  }
  std::vector<SkyBin> result;
  for (auto& [key, bin] : bins) {
    close(bin);
    result.push_back(std::move(bin));
  }
  return result;
}

}  // namespace hummock::shade

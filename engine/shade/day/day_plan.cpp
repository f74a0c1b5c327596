#include "engine/shade/day/day_plan.h"

#include <tbb/parallel_for.h>

#include <string>
#include <vector>

namespace hummock::shade {

bool hot(const Step& s) {
  return s.solar_clock >= kHotFrom && s.solar_clock <= kHotTo;
}

DayPlan make_plan(const Place& place, const Settings& settings) {
  DayPlan plan;
  plan.date = settings.date;
  plan.steps = day_steps(place, settings.date, settings.step_minutes);
  for (const Step& s : plan.steps) {
    plan.suns.push_back(settings.sun_disc ? disc_rays(place, s.sun)
                                          : std::vector<SunRay>{sun_ray(place, s.sun)});
    plan.sky.push_back(clear_sky(settings.sky, place, s.sun));
    plan.clock_hour.push_back(std::stoi(sun::clock_short(place, s.sun.when)));
    plan.diffuse_kwh_m2 += plan.sky.back().diffuse * s.hours / 1000.0;
    if (hot(s)) plan.hot_hours += s.hours;
  }
  return plan;
}

DayPlan hot_part(const DayPlan& plan) {
  DayPlan out;
  out.date = plan.date;
  out.hot_hours = plan.hot_hours;
  for (std::size_t t = 0; t < plan.steps.size(); ++t) {
    if (!hot(plan.steps[t])) continue;
    out.steps.push_back(plan.steps[t]);
    out.suns.push_back(plan.suns[t]);
    out.sky.push_back(plan.sky[t]);
    out.clock_hour.push_back(plan.clock_hour[t]);
  }
  return out;
}

Day lay_out(const DayPlan& plan, const Place& place, const geom::Grid& grid, bool keep_bands) {
  Day day;
  day.date = plan.date;
  day.sun = sun::rise_set(place, plan.date);
  const auto by_the_sun = [&](double hour) {
    return sun::Instant{day.sun.transit.ut_days + (hour - 12.0) / 24.0};
  };
  day.hot_from = by_the_sun(kHotFrom);
  day.hot_to = by_the_sun(kHotTo);
  day.hot_clock =
      sun::clock_short(place, day.hot_from) + " to " + sun::clock_short(place, day.hot_to);
  for (const Step& s : plan.steps) {
    day.times.push_back(s.sun);
    day.hours.push_back(s.hours);
    day.time_labels.push_back(sun::clock_short(place, s.sun.when));
  }
  std::vector<geom::Raster*> layers{&day.sun_hours,          &day.longest_shade_h,
                                    &day.midday_shade_share, &day.irradiation_kwh_m2,
                                    &day.direct_kwh_m2,      &day.sky_view};
  if (keep_bands) {
    for (const int h : plan.clock_hour)
      if (day.hour_of_clock.empty() || day.hour_of_clock.back() != h)
        day.hour_of_clock.push_back(h);
    day.hour_shade_share.resize(day.hour_of_clock.size());
    for (geom::Raster& r : day.hour_shade_share) layers.push_back(&r);
  }
  tbb::parallel_for(std::size_t{0}, layers.size(),
                    [&](std::size_t k) { *layers[k] = geom::Raster(grid); });
  return day;
}

}  // namespace hummock::shade

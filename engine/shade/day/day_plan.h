// One day laid out: when the sun is taken, whence it shines, how strong.
#pragma once

#include <vector>

#include "engine/shade/beam/ground_sweep.h"
#include "engine/shade/beam/sun_ray.h"
#include "engine/shade/day/day_steps.h"
#include "engine/shade/shade.h"
#include "engine/shade/sky/clear_sky.h"

namespace hummock::shade {

// The hot hours by the sun (the hour angle); common practice, no source.
inline constexpr double kHotFrom = 11.0, kHotTo = 15.0;

struct DayPlan {
  sun::Date date;
  std::vector<Step> steps;
  std::vector<std::vector<SunRay>> suns;  // one a step, or the disc's
  std::vector<Irradiance> sky;
  std::vector<int> clock_hour;                    // of each step
  std::vector<std::vector<GroundStatus>> sweeps;  // as suns
  double diffuse_kwh_m2 = 0;                      // on an open level surface, the whole day
  double hot_hours = 0;
};

bool hot(const Step& step);
// Everything but the sweeps.
DayPlan make_plan(const Place& place, const Settings& settings);
// Of a plan without sweeps the hot steps alone.
DayPlan hot_part(const DayPlan& plan);
// A day without results yet: its times, and layers of `grid` without values.
Day lay_out(const DayPlan& plan, const Place& place, const geom::Grid& grid, bool keep_bands);

}  // namespace hummock::shade

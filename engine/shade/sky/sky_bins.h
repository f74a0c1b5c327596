// The suns of a year gathered into patches of sky.
#pragma once

#include <array>
#include <vector>

#include "engine/shade/beam/terrain_clear.h"
#include "engine/shade/day/day_steps.h"

namespace hummock::shade {

struct YearSun {
  SunRay ray;
  sun::Date date;
  double hours = 0;
};
// Suns close together, in order of time.
struct SkyBin {
  std::vector<YearSun> suns;
  RunRange run;                          // of all of them
  Vec2 along;                            // unit, the way to their middle
  std::array<double, 12> month_hours{};  // sum of hours by month
};

// Every step of the year with the sun above the horizon profile; `steps` counts all with the sun
// up.
std::vector<SkyBin> year_bins(const Place& place, int year, double step_minutes,
                              std::size_t& steps);

}  // namespace hummock::shade

// The suns of a year: from where, and for how many hours of which month and state of the leaves.
#pragma once

#include <cstddef>
#include <vector>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/day/day_steps.h"

namespace hummock::shade {

// Hours of one month in which the leaves are in one state (an index into YearSuns::leaves).
struct SunHours {
  std::size_t leaves = 0, month = 0;  // month 0..11
  double hours = 0;
};
struct YearSun {
  SunRay ray;
  double azimuth = 0, elevation = 0;  // rad, apparent
  std::vector<SunHours> hours;        // by leaves, then by month
};
struct YearSuns {
  std::vector<YearSun> suns;
  std::vector<sun::Date> leaves;  // a day on which each state stands
  std::size_t steps = 0;          // of the year with the sun up
  bool on_grid = false;
};

// One step of the year above the horizon profile.
struct YearStep {
  sun::Position sun;
  SunHours hours;
};

// Every step of the year as it is.
YearSuns suns_of_steps(const Place& place, const std::vector<YearStep>& steps);

// The year's steps for its analysis: as they are where `every_step`, else on the grid (sun_grid.h)
// where that is less than half as many.
YearSuns year_suns(const FastBeam& fast, const Place& place, int year, double step_minutes,
                   bool every_step);

}  // namespace hummock::shade

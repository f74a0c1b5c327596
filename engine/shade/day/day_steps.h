// The times of a day at which the sun is taken, and the span each stands for.
#pragma once

#include <vector>

#include "engine/shade/beam/sun_ray.h"
#include "engine/sun/sun.h"

namespace hummock::shade {

struct Step {
  sun::Position sun;
  double hours = 0;        // the time it stands for
  double solar_clock = 0;  // h, 12 at transit
};

// Whole multiples of `minutes` after the place's midnight with the sun up. The hours add up to the
// day's length with the sun up; a spell of sun too short for a multiple gets its middle.
std::vector<Step> day_steps(const Place& place, sun::Date date, double minutes,
                            const sun::Track& track);
std::vector<Step> day_steps(const Place& place, sun::Date date, double minutes);

// A track long enough for every civil day from `first` to `last`.
sun::Track track_over(const Place& place, sun::Date first, sun::Date last);

}  // namespace hummock::shade

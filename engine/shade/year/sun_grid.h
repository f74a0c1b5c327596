// The suns of a year on a grid of declination and hour angle.
//
// A step's sun stands, refracted as it is, at a declination and an hour angle (of where it is seen,
// so the equation of time and refraction are in them). Rows of the grid lie kRowsApart apart in
// declination, below the sun's own breadth (0.53°); along a row suns stand as far apart as the
// steps are, but no farther than kFarthestAlong and no nearer than kRowsApart, and closer where the
// row meets the horizon (kLowSuns). Rows are shifted against each other by the golden ratio, so
// that their suns do not stand in line with an edge. Beyond kNearSolstice, where the sun spends
// weeks within a degree, rows lie kRowsNearSolstice apart. The hours of a step are split between
// the two rows about it by nearness, and on each between the two suns about it; so the hours of
// every month are those of the steps.
//
// Error. Along a row a day's hours fall on it as if its steps had been taken some minutes (less
// than half of their spacing) earlier or later; across, as if the sun stood up to kRowsApart
// higher or lower. Where an edge of a shadow passes between neighbouring suns, its time is thus off
// by about what a step itself is off; both ways, so that over the days of a month and more over a
// year most of it goes away. Left over (tests/shade_year/year_grid_test.cpp): on the
// mean of a yard's nodes less than 0.1 % of the year's hours (twice that is told), at a node less
// than 26 h: at every dawn and dusk the 2.1 minutes in which the sun goes its own breadth.
#pragma once

#include "engine/shade/year/year_suns.h"

namespace hummock::shade {

inline constexpr double kRowsApart = 0.5 * geom::kDegree;          // layout
inline constexpr double kNearSolstice = 21.5 * geom::kDegree;      // layout: a whole number of rows
inline constexpr double kRowsNearSolstice = 0.25 * geom::kDegree;  // layout
inline constexpr double kFarthestAlong = 2.5 * geom::kDegree;      // layout: ten minutes
// Elevations of suns set on each row where it meets the horizon; layout.
inline constexpr std::array<double, 4> kLowSuns{1.05 * kLowestSun, 0.3 * geom::kDegree,
                                                0.7 * geom::kDegree, 1.4 * geom::kDegree};

// Where the sun is seen among the stars: rad, hour angle −π..π, west positive.
struct Equatorial {
  double declination = 0, hour_angle = 0;
};
struct Horizontal {
  double azimuth = 0, elevation = 0;
};
Equatorial equatorial(const Horizontal& at, double latitude);
Horizontal horizontal(const Equatorial& at, double latitude);

YearSuns suns_on_grid(const Place& place, const std::vector<YearStep>& steps, double step_minutes);

}  // namespace hummock::shade

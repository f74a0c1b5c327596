// The days of a year on which the noon sun stands highest.
//
// Outside the tropics midsummer of the hemisphere; between them the two days on which it passes
// overhead, one in each half of the year. By the sun's declination at the place's noon,
//     sin δ = sin ε sin λ,  λ = L + 1.915° sin g + 0.020° sin 2g,
// the low-precision formula of the Astronomical Almanac (0.01 degrees from 1950 to 2050; from
// memory; tested against position()). Near the solstices a day's choice among neighbours is one of
// hundredths of a degree.
#pragma once

#include <array>

#include "engine/sun/sun.h"

namespace hummock::sun {

// Declination of the sun, rad, at an instant.
double declination(Instant when);

// The first and the second of the year: the same one outside the tropics. Latitude and longitude in
// rad, north and east.
std::array<Date, 2> highest_noons(double latitude, double longitude, int year);

}  // namespace hummock::sun

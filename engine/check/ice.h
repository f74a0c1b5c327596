// Does standing water freeze so that the animal walks on it? Asked only where there is water.
//
// The place says so (`freezes`), or the climate file does: a sheet of ice grows with the root of
// the degree-days of frost (Stefan's law, h = 35 mm · √(°C·day), the upper coefficient for small
// windless ponds, from memory), and thaws as fast; kBearing of it is taken to bear an animal (from
// memory: 20 mm bears some 14 kg; a fox goes sooner than a keeper would). Unknown without either,
// or where the file cannot be read. Depth, salt, flow and heating of the water are not modelled.
#pragma once

#include "engine/leap/leap.h"
#include "engine/site/site.h"

namespace hummock {

inline constexpr double kStefan = 0.035;   // m per root of a degree-day; from memory
inline constexpr double kBearing = 0.020;  // m of ice; from memory

leap::Ice ice_on(const Site& site);

}  // namespace hummock

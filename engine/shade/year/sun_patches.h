// The suns of a year gathered into patches of sky, for which it is asked at once what could come
// between them and a place.
#pragma once

#include <vector>

#include "engine/shade/beam/terrain_clear.h"
#include "engine/shade/year/year_suns.h"

namespace hummock::shade {

// Suns close together.
struct SunPatch {
  std::vector<YearSun> suns;
  RunRange run;               // of all of them
  Vec2 along;                 // unit, the way to their middle
  std::vector<double> hours;  // sum of their hours, of each of 12 months
};
std::vector<SunPatch> sun_patches(std::vector<YearSun> suns);

}  // namespace hummock::shade

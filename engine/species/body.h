// What the animal's body can do, with the careful default of every row its file leaves out.
//
// A default is the value at which the animal can most, so that what is not known never closes a way
// out; `defaults` names each that was used, and an answer that rests on one says so.
//   crouch               least_opening: where its head passes the rest is taken to follow
//   reach                the length of its body
//   perch                0: any ridge, rim or free edge bears it
//   climbs_past_upright  30 degrees: an overhang steeper than 60 degrees above the level is climbed
//                        as the fence is; its careful end kCarefulPastUpright
//   hangs                false, swims true, leap_from_water 1 where it swims
// `hangs` and `climbs_past_upright` are not the careful end: an overhang would hold nothing that
// climbs. They stand as assumptions that the answer names.
#pragma once

#include <string>
#include <vector>

#include "engine/species/species.h"
#include "geometry/vec.h"

namespace hummock {

// Just under 45 degrees: overhangs at 35 to 45 degrees above the level are asked because they hold
// (common practice, no source), so those alone are taken to hold whatever the animal.
inline constexpr double kCarefulPastUpright = 44.99 * geom::kDegree;

struct Body {
  double length = 0.0, width = 0.0, height = 0.0;  // m
  double crouch = 0.0;                             // m
  double reach = 0.0;                              // m
  double perch = 0.0;                              // m
  double climbs_past_upright = 0.0;                // rad
  bool hangs = false;
  bool swims = true;
  double leap_from_water = 1.0;       // share of its leap
  std::vector<std::string> defaults;  // keys of the species file that it leaves out
};

Body body_of(const Species& species);

}  // namespace hummock

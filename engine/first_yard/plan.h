// The numbers of a first yard, before they are written. Lengths in metres, x east, y north, the
// yard's south-west corner at (0, 0).
#pragma once

#include "engine/first_yard/first_yard.h"

namespace hummock::first_yard {

inline constexpr double kTallestOpen = 5.0;     // m, above it a roof; common practice, no source
inline constexpr double kDeepestFooting = 1.5;  // m, below it a liner; common practice, no source
inline constexpr double kLongestSide = 300.0;   // m that is drawn; numeric, a setting
inline constexpr double kShortestSide = 4.0;    // m that is drawn; numeric, a setting

inline constexpr double kGateFromCorner = 0.6;  // m, of the north-west; common practice, no source

// A rectangle on plan.
struct Patch {
  double x = 0.0, y = 0.0, x2 = 0.0, y2 = 0.0;
};

struct Plan {
  double w = 0.0, h = 0.0;  // m, east and north
  double cell = 0.1, margin = 3.0;
  double wall = 0.0;
  double dig = 0.0, foot = 0.0;  // m, how deep it digs at its careful end; the footing
  double aperture = 0.0;
  double window_a = 0.0, window_b = 0.0;
  double gate_w = 1.2, gate_h = 2.0, gate_gap = 0.0;
  double house_h = 0.0, door_w = 0.0, door_h = 0.0;
  double low = 5.0;  // °C held in the house
  double mound_r = 0.0, mound_h = 0.0;
  double shelter_h = 0.0, shrubs_h = 0.0;
  double water_depth = 0.0, water_side = 30.0;  // m; degrees
  double burrow_d = 0.0;
  Patch house, shelter, shrubs, water;
  int mounds = 0;
  bool roofed = false, liner = false, pool = false, burrow = false;
  bool mesh = false;                         // netting all but the guests' side
  bool ask_leap = false, ask_gates = false;  // rows of the site's own, where the species has none
  bool no_room = false;                      // no row asks for any area
};

Plan plan_of(const Species& species, const Asked& asked, const Tuning& tuning);

}  // namespace hummock::first_yard

// Leaps from part to part of the ground, and over things between: which parts are come to and left
// again.
//
// A leap from p to q over the distance r, z up, asks e(r, z) = ½ (z + √(z² + (s·r)²)), s = 2H/D, of
// a leap height H (the formula of engine/leap/physics/effort.h, without its easier reading of
// drops); it is one where e is at most H, from water the share of H the animal has there, and
// where the flight of least effort meets nothing solid, nor half a body's width to either side of
// it, nor what it squeezes through above it. Where that is blocked, as by the edge of a wall leapt
// on to, the steeper flights of half the effort it has left and of all of it are tried, no others;
// and where a part is not come to from rim to rim, the same from places a little behind the lower
// one, and down to such: to pass the edge of a wall it comes from some way off.
// Out of the water it also comes on to what lies within its length and no higher above the water
// than it reaches and is tall, or than 5 cm (common practice, no source). All of it on the careful
// side: what is not found is not come to.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "engine/model/model.h"

namespace hummock::usable {

// A place at the rim of a part.
struct RimSpot {
  geom::Vec3 at;  // where it stands
  int part = 0;
  bool afloat = false;
};

struct Leaper {
  double height = 0.0;          // H, m
  double distance = 0.0;        // D, m
  double share_in_water = 0.0;  // of H
  double half_width = 0.0;      // m, of its body
  double length = 0.0, reach = 0.0, tall = 0.0, crouch = 0.0;
};
// The weaker leap of young and grown: both live there.
Leaper leaper_of(const Species& species);

// Among which the way back is sought. Where it goes from what it comes to it comes as well, so all
// others are in vain; `all` is for tests.
enum class WayBack { among_those_come_to, among_all };

// How far behind a rim it is leapt off, m at least; common practice, no source.
inline constexpr double kRunOff = 0.3;

// 1 for each of `parts` parts that is come to from `start` and comes back to it. `joined`: pairs
// that are walked or climbed between. `behind`: places of the parts behind their rims.
std::vector<std::uint8_t> parts_come_to(const Model& model, const Leaper& leaper,
                                        const std::vector<RimSpot>& rim,
                                        const std::vector<std::pair<int, int>>& joined, int parts,
                                        int start, WayBack back = WayBack::among_those_come_to,
                                        const std::vector<RimSpot>& behind = {});

}  // namespace hummock::usable

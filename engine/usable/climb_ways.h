// Parts of the ground and tops of things between which the animal climbs.
//
// A way there and back: up a face it climbs (its file names the surface, or the thing is marked
// climbable), over the top, and where there is ground behind, down a face it climbs. Between two
// spots of different parts, no farther apart than kAside cells, there is one where over both spots
// the air is free, as wide as its body, up to where it passes over what stands between, and where
// at every height below, looked at every kRung, what stands between is climbed from either side. A
// face that leans out over the climber ends the way but for what its file's own
// `climbs_past_upright` allows.
//
// The careful side is less ground: only things of the yard ([[object]]) are climbed, no fence and
// no house; from the water nothing is; a thing wider than kAside at its foot than at its top (a
// boulder that swells) is not found, nor one that stands where no node is within a cell of it.
#pragma once

#include <utility>
#include <vector>

#include "engine/usable/hops.h"

namespace hummock::usable {

inline constexpr double kAside = 2.5;  // cells; numeric: a node on either side of a face
inline constexpr double kRung = 0.05;  // m; common practice, no source

// Pairs of parts, each once. `cell`: m, of the grid whose nodes the spots are.
std::vector<std::pair<int, int>> climbed_between(const Model& model, const Leaper& climber,
                                                 const std::vector<RimSpot>& rim, double cell);

}  // namespace hummock::usable

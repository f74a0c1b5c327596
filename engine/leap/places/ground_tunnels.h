// From one part of the ground to another beneath what stands between them.
//
// Blocks, stones and houses stand on the ground: where nothing of them is in it, an animal that
// digs comes out behind them. Two parts are one where a tunnel leads from some square of the one to
// one of the other: straight on plan, inside the outline, along the ground and the bed of waters at
// some depth that nothing buried crosses (a footing, a skirt, the foot of a thing set into the
// ground), no deeper than the animal digs, and no longer than it digs: the way between the squares'
// rims and twice the depth. Just beneath the surface first, then every 5 cm down.
//
// Houses. A room with a floor of earth is dug into and out of again, each wall a tunnel of its own,
// beneath the footing where the house has one: two short scrapes lead through a house that no one
// tunnel passes. Doors and vents that its head passes (engine/barrier/house_ways.h), at whatever
// height, lead out of a room it has dug into, and into one to dig out of.
//
// Drawn burrows are ways too (engine/leap/passages/burrow_ways.h), of which no more than what is
// dug from them counts as the tunnel's length.
//
// A tunnel beneath a whole house passes below its footing, and is as long as that is wide and twice
// as deep at least, as one to its floor is.
//
// Limits. For each square of the other parts the
// one nearest square is tried, so a tunnel askew past what is buried is not found; the animal is a
// point; things are taken not to sink. Rock is not asked for: the ways are mostly just beneath the
// surface.
#pragma once

#include <vector>

#include "engine/leap/places/ground_squares.h"

namespace hummock::leap {

// `piece`: the number of each square's part, below `pieces`; -1 = none. Parts between which it
// digs, by others in between too, get one number, that of the first of them; where there are more
// than 64 parts only those it digs to from part 0 do. Returns how many there are then.
int join_by_tunnels(const Model& model, const PlaceRules& rules, const SquareSampler& squares,
                    int pieces, BlockGrid<int>& piece);

}  // namespace hummock::leap

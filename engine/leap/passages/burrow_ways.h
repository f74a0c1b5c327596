// Drawn burrows as ways from one part of the ground to another.
//
// In by the mouth an animal goes along the whole path for nothing, and digs up from any place of
// it, or down to it; of how deep a burrow runs only its deepest is given, so the depth of the path
// is not counted. Two that run into each other on plan are one, for an animal that does not dig
// too, where its head passes both.
#pragma once

#include <vector>

#include "engine/leap/places/ground_squares.h"
#include "engine/leap/places/places.h"

namespace hummock::leap {

// From a place of a burrow's path to a square of the ground.
struct WayUp {
  double length = 0.0;  // m, on plan to the square's rim
  std::size_t to = 0;
  geom::Vec2 from;
};

struct BurrowWays {
  std::vector<std::size_t> mouth;  // squares of some part about it
  std::vector<WayUp> ups;          // no longer than it digs, the shortest first
};

// `piece`: the part of each square, -1 = none.
BurrowWays burrow_ways(const PlaceRules& rules, const SquareSampler& squares,
                       const BlockGrid<int>& piece, const Burrow& burrow);

// Do they run into each other, or does it dig from one to the other?
bool burrows_meet(const PlaceRules& rules, const Burrow& one, const Burrow& other);

}  // namespace hummock::leap

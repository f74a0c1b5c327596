// Nearness of flights to things overhead: the least of a rising measure over two patches.
//
// A measure f(r, z) that never falls as r >= 0 or z grows has its least over a pair of boxes at
// their least distance and least rise, like the effort itself; so the same branch and bound serves
// for the effort to touch the roof, for the gap between the envelope of a full leap and the roof
// (vertical), and for the clearance of that envelope to the barriers' tops (shortest distance).
// Flights are taken as free: the figures are never too large.
#pragma once

#include <vector>

#include "engine/leap/physics/effort.h"
#include "engine/leap/places/patch.h"
#include "engine/model/model.h"

namespace hummock::leap {

struct Nearest {
  double value = 1e300;
  int from_patch = -1;
  geom::Vec3 from, to;  // the points that stand for the two pieces
  bool is() const { return value < 1e299; }
};

enum class Measure {
  effort,        // e(r, z), m
  vertical_gap,  // z − (E − (s·r)²/(4E)), m: negative where the flight reaches higher
  clearance,     // shortest distance to the envelope, m
};

// Least over all pairs. From climbed faces E is the cling share of the leap. `below` prunes: pairs
// at or above it are not looked for.
Nearest nearest(const std::vector<const Patch*>& from, const std::vector<const Patch*>& to,
                Measure measure, const Ability& ability, double below = 1e300);

// The roof's sheets as patches of pieces no longer than `piece` metres.
std::vector<PatchPtr> roof_patches(const Model& model, double piece);

}  // namespace hummock::leap

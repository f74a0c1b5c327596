// Which pieces of a patch hang together, where something covers what lies between them.
//
// Pieces hang together where their cells touch; where the animal reaches from the one to the other;
// and, of pieces stood on, where its leap could take it across: what that truly needs is then
// counted as nothing, as of all ways within a patch. Either is tried within its length, straight,
// and out from the face, across and in again: a limb up to twice as far out as it reaches, more
// than one does, so that what is not known never parts a place; a leap as far out as it is high.
// After kMostWays that are not free the rest is taken to hang together. A crumb (no longer than
// kCrumb along any axis) goes with the nearest set that is none: it leads nowhere by itself.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/leap/places/patch.h"
#include "geometry/disjoint_sets.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::leap {

struct Hold {
  SurfacePiece piece;
  geom::Vec3 from;    // a point of its face, lifted: of an edge, a little within
  geom::Vec3 normal;  // of its face, unit
};

struct Across {
  double reach = 0.0;  // m, of a limb, > 0
  double leap = 0.0;   // m, how high it leaps
};

inline constexpr double kCrumb = 0.15;            // m; common practice, no source
inline constexpr std::int64_t kMostWays = 40000;  // numeric, a limit of work

struct HangTogether {
  geom::DisjointSets sets;  // of the holds' numbers
  bool across = false;      // told by limb and leap besides, for they do not all touch
};

// `covered`: the cells of the patch's pieces that cannot be used.
HangTogether hang_together(const std::vector<Hold>& holds, const std::vector<geom::Box3>& covered,
                           const Across& across, const geom::RayScene& scene);

}  // namespace hummock::leap

// The cross-section of an overhang: how it rises as it comes in from the fence.
//
// Straight: a line of the overhang's length at its angle above the horizontal. Curved: an arc of a
// circle of that length, which leaves the fence upright and has its tip at that angle; with the
// turn t = 90° − angle and the radius R = length / t it comes in R(1 − cos t) and rises R sin t.
// The arc is made of chords that turn by at most kFacetTurn each, so that every facet has an angle
// of its own for what climbs it. A chord lies inside the arc by at most R(1 − cos(kFacetTurn / 2)),
// and the place where an arc becomes too flat to be climbed is told to half a chord. Netting that
// is hung as a curve gives way under an animal; the arc here is rigid.
#pragma once

#include <vector>

#include "engine/site/site.h"

namespace hummock {

inline constexpr double kFacetTurn = 6.0 * geom::kDegree;  // numeric, a setting

struct OverhangProfile {
  double reach = 0.0;         // m in from the fence, of the tip
  std::vector<double> share;  // of the reach at each fold, rising from 0 to 1
  std::vector<double> rise;   // m above the fence's top, at each fold

  double rise_at(double u) const;  // u = share of the reach, 0..1
};

OverhangProfile profile_of(const Overhang& overhang);

}  // namespace hummock

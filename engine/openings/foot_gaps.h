// The gap between the ground and the foot of a panel or a gate.
#pragma once

#include <vector>

#include "engine/openings/barrier_lines.h"
#include "engine/openings/openings.h"

namespace hummock::openings {

// A stretch of constant slope: free height at both ends.
struct GapStretch {
  double from = 0.0, to = 0.0;            // m along the line
  double low_from = 0.0, low_to = 0.0;    // m above datum, lower edge of the free height
  double high_from = 0.0, high_to = 0.0;  // upper edge
  double at_from() const { return high_from - low_from; }
  double at_to() const { return high_to - low_to; }
};

// The greatest free height between ground and sheet that neither skirt nor footing fills, along the
// whole line; stretches with none are left out. `holes`: x ranges of drains, where the sheet's own
// lower edge is taken as it would be without them: they hide nothing but their own opening.
std::vector<GapStretch> gap_profile(const geom::Heightfield& ground, const BarrierLine& line,
                                    const std::vector<Vec2>& holes);

// Diameter of the largest circle in the longest unbroken run of stretches that holds the greatest
// height.
double rigid_ball(const std::vector<GapStretch>& profile);

void add_foot_gaps(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

// How sheets that lie along the fence line (overhangs, aprons) are cut at the outline's corners.
//
// Seen along one model edge: s runs along it from its first corner, t to the side on which the
// sheet lies. At either end the sheet is cut by a line through the corner:
// - neighbour with a sheet on the same side: the mitre, through the point where both sheets' outer
//   rims meet; on the far side of a reflex corner the sheet is longer than its edge;
//   (at most kMostLonger times its width: round a spike the two sheets then do not meet);
// - no neighbour: square across, unless the corner is so sharp that the sheet would come through
//   the neighbour's line; then along that line.
#pragma once

#include <optional>

#include "geometry/plan/polygon.h"

namespace hummock {

inline constexpr double kMostLonger = 6.0;  // common practice, no source

// A cut runs through the corner at s = 0 (or s = length for the far end) in the direction
// (lean, 1): at t metres off the line the sheet begins (or ends) `lean · t` metres farther along.
struct EndCuts {
  double start_lean = 0.0;  // > 0: cut back, < 0: longer than the edge
  double end_lean = 0.0;    // > 0: longer, < 0: cut back
};

// `reach`: plan width of this edge's sheet to its left (negative: to its right); `before`, `after`:
// those of its neighbours, nothing when they have none on that side.
EndCuts end_cuts(const geom::Polygon& outline, int edge, double reach, std::optional<double> before,
                 std::optional<double> after);

}  // namespace hummock

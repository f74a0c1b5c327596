// The height cap map: at each spot, the tallest that anything may stand there.
//
// An animal at (x, y, z) reaches a barrier point b = (bx, by, bz) with leap height H exactly when
// e(r, bz − z) <= H, that is z >= bz − H + s²r²/(4H) (effort.h). So nothing that can be stood on
// may be higher at (x, y) than
//     cap(x, y) = min over b of  bz − H + a·((x − bx)² + (y − by)²),   a = s²/(4H):            (1)
// the lower envelope of one upward paraboloid for each point of the barriers' tops, all of the same
// opening. That is a generalised distance transform (Felzenszwalb & Huttenlocher 2012, Theory of
// Computing 8:415-428, algorithm DT(f); Meijster, Roerdink & Hesselink 2000 for the two-pass form).
// Here the points need not lie on the grid: on each row of nodes (1) is a one-dimensional envelope
// of parabolas with apexes bx and offsets bz − H + a(y − by)², built in one sweep over the points
// sorted by bx and read off in one sweep over the nodes. Exact, with no search.
//
// An animal that leaps shorter than twice its height (s > 1) goes farther down than (1) tells:
// beyond its level gap D = 2H/s the plain throw rules (effort.h, 3'), bz − H/s + r²·s/(4H), which
// is lower there and higher within D. So the cap is the lesser of two such envelopes, the second
// that of an animal of leap height H/s and s = 1.
//
// Cost. O(rows · points + nodes): since the points lie along the barrier at a spacing near the
// cell's, their number grows as the rows' and the whole is linear in the number of cells.
//
// Between points. A straight top is sampled at `spacing`; the envelope of samples is higher than
// that of the whole line by at most a·spacing²/4 (r² of the nearest sample against the foot of the
// perpendicular, half a spacing away), and this much is taken off: the cap is never too high.
//
// Whose points. Those of the ways out (places.h), and those of every place from which the animal
// would get out within H over what stands today (leads_out.h), though it may not gain that place
// itself: beside a pole too tall for it, a crate from which it gains the pole's top is a way out.
// What leads out by way of a second new thing is not asked. An edge is also reached without a leap:
//     cap(x, y) <= bz − √(R² − (x − bx)² − (y − by)²)   within the reach R of an edge,          (2)
// which rules where the reach is longer than the leap.
//
// Limits. Flights are taken as free: where something stands in their way the true cap is higher.
#pragma once

#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/vec.h"

namespace hummock::leap {

// (1) at every node of the grid; +infinity everywhere without points. H, s > 0.
std::vector<double> lower_envelope(const geom::Grid& grid, std::vector<geom::Vec3> points,
                                   double leap_height, double stretch);

}  // namespace hummock::leap

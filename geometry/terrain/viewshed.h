// What of a bare ground is seen from one point, exactly, for the surface of heightfield.h.
//
// Answer. For each node the least height above the ground at which a point straight above it is in
// sight of `eye`: 0 where the ground itself is seen. A target of height h is seen where the answer
// is <= h, so one run serves every height. Grazing counts as seen.
//
// Theory. Along a ray the surface is straight inside each triangle, so its steepest sight angle is
// reached where the ray crosses an edge. In the eighth of the plane 0 <= q <= p (p, q: distance
// along and across an axis), the central projection u = q/p, w = (z − z_eye)/p takes every
// straight edge to a straight segment, and the skyline of everything nearer than grid column k is
// the upper envelope of those segments, a polyline in (u, w). It is carried outwards column by
// column: the nodes of the next column are judged against it, then the strip's own edges (rows,
// diagonals, the column) are merged in by one walk along both. Between two columns' nodes a strip
// has at most two straight pieces, so a strip of m nodes costs O(m + length of the skyline).
//
// Cost. O(n) for n nodes while the skyline keeps O(m) corners, as on real ground; a skyline can
// keep every silhouette ever passed, so the worst case is O(n^1.5). The eight eighths run in
// parallel; the result does not depend on threads. Ground that rises clear of the skyline, and
// ground well under it, go several rows at a time (rising_run.h, hidden_run.h), with the same
// result.
//
// Error. No interpolation of the sight line and no sampling: only rounding, below 1e-9 m for
// grounds up to kilometres (tested against crossing every edge one by one). No curvature of the
// Earth and no refraction: 2 mm at 150 m, out of scale in an enclosure.
//
// Departure from the raster programs: Franklin & Ray's R2 and Wang et al.'s reference planes judge
// the sight line by interpolating already-judged cells, which is quicker to write but errs near
// skylines; van Kreveld's sweep takes each cell as a step. Here the surface is the one every other
// analysis uses.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// Throws std::invalid_argument when the eye is not over the ground's grid (`covers`). An eye below
// the surface sees nothing beyond its own triangles.
Raster least_visible_height(const Heightfield& ground, Vec3 eye);

// Nodes i0..i1 by j0..j1.
struct NodeRange {
  int i0 = 0, i1 = 0, j0 = 0, j1 = 0;
};
// The same for the nodes of the range; others may hold anything. Ground beyond it, as seen from the
// eye, is not walked.
Raster least_visible_height(const Heightfield& ground, Vec3 eye, const NodeRange& wanted);

// 1 for each node of the range whose least visible height is over `tall` (m, >= 0): as one asks for
// a single height of target, and several times as fast where much is hidden.
std::vector<std::uint8_t> hidden_nodes(const Heightfield& ground, Vec3 eye, double tall,
                                       const NodeRange& wanted);

// The least visible height of one point by crossing every edge between: exact, O(√n) for each
// question. The witness of the tests, and the way to ask about a point that is no node. `foot` must
// be covered; the eye may be off the grid, where no ground hides anything.
double least_visible_height_at(const Heightfield& ground, Vec3 eye, Vec2 foot);

}  // namespace hummock::geom

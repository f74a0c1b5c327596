// One leap between two pieces of surface: its bound from below, and the ladder of flights tried.
//
// Bound. For two boxes the least effort of any leap from one to the other is exact (effort.h, 4).
// From a climbed face only the share `cling` of the leap is there, so its efforts count 1/cling
// times; to an edge the rise is less by `grip`.
//
// Steps. Pieces whose boxes are nearer than `step_over_gap` (half a resolution) are stepped across
// at no effort: a gap or step too small for the samples is never taken for an obstacle. What is
// measured is the distance between the upright boxes round the two pieces, square to the axes:
// never more than between the pieces, and of pieces that lie askew to the axes less by up to their
// own size. So a yard turned about may be told less than the same yard square to the axes, for a
// leap as for a step, within the bound that is told; never more than is true. Edges count down to
// where they are shut, and what shuts a mitre's side is sought nearer than this gap (exits.cpp):
// who hangs on the sheet beside a mitre steps on to it at any turn.
//
// Reach. An edge within `reach` of a hold or footing is gained without a leap, at no effort, where
// a limb gets there: straight, or level to just past the edge and then up round it, both at most
// `reach` long. Reach is never added to a leap (that is `grip`).
//
// Ladder. Where the flight of least effort is blocked, steeper and flatter ones are tried in order
// of effort. Rung k on a side is the flight whose middle lies k·step higher (lower) than that of
// least effort, so neighbouring rungs are nowhere more than `step` apart. When rung k is free and
// k − 1 was not, the edge between is closed in by bisection to step/8.
//
// What the ladder proves. For the two points tried, every flight between the least and the last
// blocked rung is blocked up to gaps narrower than `step`. Other points of the two cells see the
// blocking edge displaced by at most the cells' half sizes c, which at share u of the way is worth
// c/(u(1 − u)) in bulge; that much is given back before the effort is counted (`rung_bound`). The
// effort counted is therefore never above that of the best flight between the cells past the same
// edge, and the effort of the free flight itself bounds it from the other side.
//
// Beside. A ladder goes over and under what blocks the flight from point to point. From elsewhere
// in the same cells a flight may pass beside it, as past the corner of a hood over a ledge, at no
// more effort. Seen from above, the flights between two cells lie between the two that join their
// outermost corners to one side of the way and to the other. So with each blocked flight those two
// are flown as well, at the same rung: what blocks all three leaves nothing between them but
// openings narrower than a cell between two obstacles. Corners are drawn in by kCornerIn, and where
// one cannot be seen from the cell's own point (the cell reaches through a fence) the middle
// between is tried: no flight starts or ends beyond what stands in its own cell.
#pragma once

#include "engine/leap/physics/arcs.h"
#include "engine/leap/physics/effort.h"
#include "engine/leap/places/patch.h"

namespace hummock::leap {

struct LinkRules {
  Ability ability;
  double limit = 0.0;            // m, efforts above it are not searched
  double step = 0.05;            // m, between rungs, in height at the middle of the flight
  double step_over_gap = 0.025;  // m, gaps stepped across; common practice, no source
  double chord_error = 0.0;      // m, of a tested chain (arcs.h)
  bool blocked = true;  // false: flights pass through everything (bounds, and for moved things)
};

// Is a rung of the ladder between two spots the same flight by both, and tested alike?
bool fly_alike(const LinkRules& a, const LinkRules& b);

// An effort as the patch's own take-off lets it be made; infinite where it lets none.
double effort_from(const Patch& patch, double effort);
// Cost of one metre of effort from there: 1 standing, 1/cling climbing (infinite for cling 0).
double cost_of_takeoff(const Ability& ability, bool stands);

// Bound from below, m, in units of the leap height needed: infinite where no leap can be made.
double link_bound(const LinkRules& rules, const geom::Box3& from, bool stands, const geom::Box3& to,
                  bool hook);
// The same without what is reached: of leaps and steps only.
double leap_bound(const LinkRules& rules, const geom::Box3& from, bool stands, const geom::Box3& to,
                  bool hook);
// Up on to a face that is only slid down: it does not stay there, nor walk on from there.
inline bool no_footing(const SurfacePiece& from, const SurfacePiece& to) {
  return to.slid && to.at.z >= from.at.z;
}
bool within_reach(const LinkRules& rules, const geom::Box3& from, const geom::Box3& to, bool hook);
// The ways a limb may take from one spot's point to an edge: chains of two or three points.
std::vector<std::vector<geom::Vec3>> limb_ways(const LinkRules& rules, const SurfacePiece& from,
                                               const SurfacePiece& to);
// Squared gap between two boxes, m².
double box_gap2(const geom::Box3& a, const geom::Box3& b);
double diagonal2(const geom::Box3& box);  // squared, m²
bool within_step_over(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to);

// The flight of least effort from one spot's point to the other's; an edge is aimed at `grip` low.
Arc least_arc(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to);
double effort_of(const LinkRules& rules, const Arc& arc);  // without the cost of the take-off
// Of the cheapest flight at least as steep, or as flat: what a ladder that climbs on may still
// cost.
enum class Side { steeper, flatter };
double effort_onward(const LinkRules& rules, const Arc& arc, Side side);
// Stops short of an edge by the reach of the forelimbs.
Ends ends_of(const LinkRules& rules, const SurfacePiece& to);

// Rung k of the ladder (k = 0: the least effort). Infinite effort where there is none.
Arc rung(const LinkRules& rules, const Arc& least, Side side, double k);
// Effort of the cheapest flight between the cells beyond rung k, given that rung k was blocked at
// `share` of the way.
double rung_bound(const LinkRules& rules, const Arc& least, const SurfacePiece& from,
                  const SurfacePiece& to, Side side, double k, double share);

// The ways past what blocks the flight from point to point (Beside, above).
enum class Way { blocked, straight, left, right, half_left, half_right };
inline constexpr double kCornerIn = 1e-3;  // m; numeric, far above what rays are off by
struct Aside {
  SurfacePiece from, to;  // with their points moved
  Arc arc;
};
// The flight of rung k on one side of the ladder: from point to point (straight), or to the left or
// right of that, as far as the cells leave or half as far.
Aside aside(const LinkRules& rules, const SurfacePiece& from, const SurfacePiece& to, Side side,
            int k, Way way);

}  // namespace hummock::leap

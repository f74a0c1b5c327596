// From the built model to the places an animal can be: patches of spots (patch.h).
//
// Ground. Squares of the surface at spacing `resolution` (a whole fraction or multiple of the
// ground's cell, so that a site shifted by whole cells gives the same squares) whose slope it
// stands on, that are inside the outline, not in a house, not under water deeper than it wades,
// not inside a solid, and with its body's height free above. All such ground is one patch, the
// living ground, whatever parts it falls into: "the ground inside". When the site gives a start,
// only the part one walks to from there lives; the other parts are patches of their own, to be
// gained by leaping over moat or wall. Walking from square to square is stopped by what stands in
// the way both at foot height and at body height. Where the species climbs earth, ground of any
// slope is taken.
//
// Things. Triangles of objects, dens and houses (roofs are places too) flat enough to stand on,
// or that can be climbed: a part marked climbable at any slope, overhanging or not; a surface among
// the species' `climbs` up to kSteepestClimb past upright. The crown of a tree can be climbed by
// what climbs bark (branches bear it), and only by it. Triangles that share an edge are one patch.
// Fence panels, gates and posts are faces to climb when their surface is climbed. Hanging beneath
// an overhang or a roof, inverted, is not assumed: overhangs are built because few animals can, and
// a trial of a curved, floppy one of 0.6 m held most animals that climb mesh, not all (Moseby &
// Read 2006, Biol. Conserv. 127:429-437, abstract); a rigid straight one was not what was tried.
// `climb_inverted` assumes it, for species that go hand over hand.
//
// Edges. The rim of a patch of a thing, where it breaks off, and the tops of barriers are edges
// that can be hooked: `grip` is taken off the rise to them. So are rims of steep ground.
//
// Exits. The top of each panel or gate, or where it carries an overhang the overhang's free edges;
// the free edges of a roof with open sky beside them inside the outline; and what of a thing lies
// beyond the outline above the barrier's top (a branch over the fence). An edge counts only where
// the clear height above it is at least the species' least opening; what is less is for the
// openings check. No other way out is dearer by this:
//   over a barrier's top: a flight that crosses the line of the barrier does so above its top edge,
//     and e grows with height, so the edge below needs no more;
//   over an overhang: from under its plane the sheet is in the way, so the flight passes above the
//     tip and the same holds. From above its plane, take the tip at horizontal distance d and drop
//     h >= a·d (a = tan of the overhang's angle) and a point of the sheet u further on and a·u
//     lower: X = s(d + u), H = h + a·u. Then de/du has the sign of aH + sX − a√(H² + X²), which is
//     >= 0 when 2aHs >= X(a² − s²); with H >= a(d + u) the left side is at least 2a²X >= X(a² −
//     s²). So the tip needs no more than any point behind it.
// In both a flight to the edge could be blocked where the higher one is not, by a thing that hangs
// above the edge and can itself neither be stood on nor hooked; that case is not searched for.
//
// Limits. Pieces smaller than the resolution are merged with what they lie on; a piece counts if
// the point that stands for it does. Walking and climbing within a patch are not searched for
// narrow places.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/leap/places/patch.h"
#include "engine/leap/search/links.h"
#include "engine/model/model.h"

namespace hummock::leap {

struct PlaceRules {
  Ability ability;
  double resolution = 0.05;  // m
  double stand_slope = 0.7;  // rad
  std::vector<std::string> climbs;
  double least_opening = 0.05;  // m
  double wade_depth = 0.0;      // m
  bool climb_inverted = false;
};
PlaceRules place_rules(const Species& species, double resolution, bool climb_inverted);

inline constexpr double kSteepestClimb =
    6.0 * geom::kDegree;  // past upright; common practice, no source

bool can_climb(const PlaceRules& rules, const Part& part);

// A square lattice laid over the ground, and what each square is.
struct GroundSquares {
  double x0 = 0.0, y0 = 0.0, side = 0.05;  // m
  int nx = 0, ny = 0;
  std::vector<char> state;  // Square, row by row from the south
  // Places whose point is not the middle of the square, by row: column and point.
  std::vector<std::vector<std::pair<int, geom::Vec2>>> off_centre;
};
enum Square : char { kOutside = 0, kPlace, kWater, kHouse, kSteep, kCovered };

struct GroundPlaces {
  GroundSquares squares;
  std::vector<PatchPtr> patches;  // [0] = the living ground
  double living_area_m2 = 0.0;    // of [0], in plan
};

// What ground is sampled for. Squares from which every thing, exit and other part of the ground is
// beyond `links.limit` are joined in blocks of kBlock by kBlock, which cannot change any answer up
// to the limit; only the demand map is coarser there.
struct GroundUse {
  const std::vector<PatchPtr>* targets = nullptr;  // things and exits
  const LinkRules* links = nullptr;
};
inline constexpr int kBlock = 16;

// Throws InputError when no ground is left to live on, or the start is not on living ground.
GroundPlaces ground_places(const Model& model, const PlaceRules& rules, const GroundUse& use);
// The same after the things within `changed` (plan boxes) have changed.
GroundPlaces ground_places_again(const Model& model, const PlaceRules& rules, const GroundUse& use,
                                 const GroundPlaces& before,
                                 const std::vector<geom::Box3>& changed);

// The patches of one part; none when it is no place.
std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules);

// Ways out, one patch for each section, gate and roof.
std::vector<PatchPtr> exits(const Model& model, const PlaceRules& rules);

}  // namespace hummock::leap

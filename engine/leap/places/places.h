// From the built model to the places an animal can be: patches of spots (patch.h).
//
// Can be, not can live: what it squeezes into, clings to, balances on or swims in counts, since it
// may leave from there (species/body.h gives the careful value of every row a species leaves out).
//
// Ground. Squares of the surface at spacing `resolution` (a whole fraction or multiple of the
// ground's cell, so that a site shifted by whole cells gives the same squares) where the animal can
// be (engine/usable/usable_ground.h) inside the outline and in no house: outside every solid, with
// `crouch` free above, under no water deeper than it wades. It comes there walking where it stands
// on the slope; of steeper ground its crests count (Perches, below; in steps of the ground's cell)
// and what it slides down to from a place (ground_slides.h), left with its whole leap, and gained
// from above but not from below: who leaps up on to a face he cannot stand on is not up at its
// head. All such ground is one patch, the living ground, whatever parts it falls into: "the ground
// inside". When the site gives a start, only the part one walks to from there lives; the other
// parts are patches of their own, to be gained by leaping over moat or wall; where it is taken to
// dig (`digs`), the parts it tunnels to live as well (ground_tunnels.h). Walking from square to
// square is stopped by what stands in the way both at foot height and at body height. Where the
// species climbs earth, ground of any slope is taken.
//
// Water. Where it swims, the surface of water deeper than it wades: one patch for each pool, with
// `leap_from_water` of its leap. It swims in at no effort wherever the shore meets the water.
//
// Snow. What the model's ground carries of it lies on level tops of closed things too (of the depth
// at the fence's posts): an animal leaves from the snow's top. Gained the top is as it is without,
// and barriers' tops carry none: both are the careful end.
//
// Things. Triangles of objects, dens and houses (roofs are places too) flat enough to stand on,
// or that can be climbed: a part marked climbable at any slope, overhanging or not; a surface among
// the species' `climbs` up to `climbs_past_upright`. The crown of a tree can be climbed by what
// climbs bark (branches bear it) or where the tree is marked climbable, and only then. Triangles
// that share an edge are one patch. Fence panels, gates, posts and overhangs are faces to climb
// when their surface is climbed, overhangs by their underside: one steeper than 90° less
// `climbs_past_upright` above the level is climbed as the fence is. Hanging beneath a flatter one
// or a roof, inverted, is not assumed: overhangs are built because few animals can, and a trial of
// a curved, floppy one of 0.6 m held most animals that climb mesh, not all (Moseby & Read 2006,
// Biol. Conserv. 127:429-437, abstract); a rigid straight one was not what was tried. `hangs` (or
// `climb_inverted`) assumes it, for species that go hand over hand. A face that something lies on
// is not climbed (holds/room_to_hold.h), and what is left of a patch is several where neither limb
// nor leap comes across what is covered (holds/hang_together.h).
//
// Houses. One with two ways in its walls or more is a passage from one to the other: places of its
// own, and a way out where one opens above a roof that closes the yard
// (engine/leap/passages/through_houses.h).
//
// Perches. With `perch` 0 ridges, rims and free edges of things are places at any slope of their
// faces: edges whose faces on neither side rise from them by more than kLevelAcross, which are not
// flat (a seam in a plane). They run at any slope up to kSteepestPerch: what is steeper is an
// upright corner, gone up as its faces are or not at all. Free: no sheet goes on above the edge or
// within `crouch` over it; else it is a hold like its face. With a perch above 0 such edges, which
// have no width, are left out, and so are tops too narrow for it (narrow_crest.h). Edges of the
// barrier itself are exits or holds.
//
// Edges. The rim of a patch of a thing, where it breaks off, perches, and the tops of barriers are
// edges that can be hooked: `grip` is taken off the rise to them, and `reach` gains them without a
// leap. So are rims of steep ground.
//
// Exits. The top of each panel or gate, or where it carries an overhang the overhang's free edges;
// the free edges of a roof with open sky beside them inside the outline; and what of a thing lies
// beyond the outline above the barrier's top (a branch over the fence). An edge counts only where
// the clear height above it is at least the species' least opening, or short of it by rounding
// (1 mm); what is less is for the openings check. Where a closed thing lies on the edge or less
// than that above it, the edge is raised to that thing's top (and so on upwards): the animal leaves
// over it. A sheet there closes the edge. A slot beside a roof's rim too narrow for the least
// opening is no way out, and the rim of a roof that is only a shelter is none (roof_slots.h): its
// top is a place. No other way out is dearer by this:
//   over a barrier's top: a flight that crosses the line of the barrier does so above its top edge,
//     and e grows with height, so the edge below needs no more;
//   over an overhang: from under its plane the sheet is in the way, so the flight passes above the
//     tip and the same holds. From above its plane, take the tip at horizontal distance d and drop
//     h >= a·d (a = tan of the overhang's angle) and a point of the sheet u further on and a·u
//     lower: X = s(d + u), H = h + a·u. Then de/du has the sign of aH + sX − a√(H² + X²), which is
//     >= 0 when 2aHs >= X(a² − s²); with H >= a(d + u) the left side is at least 2a²X >= X(a² −
//     s²). So the tip needs no more than any point behind it. A plain throw is the case s = 1.
// In both a flight to the edge could be blocked where the higher one is not, by a thing that hangs
// above the edge and can itself neither be stood on nor hooked; that case is not searched for.
//
// Limits. Pieces smaller than the resolution are merged with what they lie on; a piece counts if
// any of the points tried on it (no farther apart than kProbe) can be used. Samples are never
// coarser than kCoarsest, so that what is bounded holds at every resolution asked. Walking and
// climbing within a patch are not searched for narrow places. Plantings bear no weight, a premise
// that the answer names where it rests on it (rows/rests_on.h): their tops are places when
// `plantings_bear`. So are crowns that are not climbed (`crowns_bear`) and the walls of houses
// whose surface the site file leaves out, taken as smooth (`walls_rough`).
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "engine/leap/ground/block_grid.h"
#include "engine/leap/places/patch.h"
#include "engine/leap/search/links.h"
#include "engine/model/model.h"
#include "engine/species/body.h"

namespace hummock::leap {

// How it digs from one part of the ground to another; a length of 0: not at all.
struct Digging {
  double length = 0.0, depth = 0.0;  // m
  friend bool operator==(const Digging&, const Digging&) = default;
};

struct PlaceRules {
  Ability ability;
  double resolution = 0.05;  // m
  double stand_slope = 0.7;  // rad
  std::vector<std::string> climbs;
  double least_opening = 0.05;  // m
  double wade_depth = 0.0;      // m
  Body body;
  bool climb_inverted = false;  // or it hangs
  bool plantings_bear = false;  // a hedge's top is a step
  bool crowns_bear = false;     // every crown does, as one that is climbed
  bool walls_rough = false;     // of houses: of what it climbs, where the file says nothing
  bool drained = false;         // waters that can be emptied are
  bool helped_indoors = false;  // what stands in houses takes it up to every vent
  Digging digs;                 // beneath what stands in the yard (ground_tunnels.h)
};
PlaceRules place_rules(const Species& species, double resolution, bool climb_inverted);
// As the settings ask; where the waters bear the animal any of them, however shallow, is a walk at
// its level.
struct Settings;
PlaceRules place_rules(const Species& species, const Settings& settings);

// Of perches: along the edge, above the level (85°, and beyond it what rounding can turn a lean of
// just that to, so that turned yards are told alike); what still counts as level; least fall of
// both faces.
inline constexpr double kSteepestPerch = 85.01 * geom::kDegree;  // common practice, no source
inline constexpr double kLevelAcross = 2.0 * geom::kDegree;      // common practice, no source
inline constexpr double kNotFlat = 0.5 * geom::kDegree;          // common practice, no source
inline constexpr double kCoarsest = 0.10;                        // m; numeric, a setting
inline constexpr double kProbe = 0.05;                           // m; numeric, a setting

// The snow that lies above the fence's lower rails, which were set on the ground before it, m:
// nothing else records it in the model.
double snow_depth(const Model& model);

// Plantings as tall as the animal's crouch, and so steps if they bear it: indices of the parts.
std::vector<int> tall_plantings(const Model& model, const Body& body);

// Crowns that are air to it, though nobody knows what they bear: indices of the parts.
std::vector<int> airy_crowns(const Model& model, const PlaceRules& rules);
// Houses of whose walls nothing is said, for an animal that climbs what a wall may be of (rock,
// wood, bark): indices of the parts.
std::vector<int> unsaid_walls(const Model& model, const PlaceRules& rules);

bool can_climb(const Model& model, const PlaceRules& rules, const Part& part);
// Is there room for the animal to crouch right above the point, outside every solid?
bool room_above(const Model& model, geom::Vec3 from, double crouch);

// A square lattice laid over the ground, and what each square is.
struct GroundSquares {
  double x0 = 0.0, y0 = 0.0, side = 0.05;  // m
  int nx = 0, ny = 0;
  BlockGrid<char> state;     // Square
  BlockGrid<char> near;      // a thing's face lies over it or stands in it
  double near_crouch = 0.0;  // m, of the animal that `near` was asked for
  // Places whose point is not the middle of the square, by row: column and point, rising.
  std::vector<std::vector<std::pair<int, geom::Vec2>>> off_centre;
  geom::Vec2 point(int i, int j) const;  // of a place
};
enum Square : char { kOutside = 0, kPlace, kWater, kHouse, kSteep, kCovered };

class GroundSurface;  // ground/ground_surface.h
class GroundFolds;    // ground/ground_folds.h

struct GroundPlaces {
  std::shared_ptr<const GroundSurface> surface;
  std::shared_ptr<const GroundSquares> squares;
  std::shared_ptr<const GroundFolds> folds;
  std::vector<PatchPtr> patches;  // [0] = the living ground
  double living_area_m2 = 0.0;    // of [0], in plan
};

// Up to so many squares the ground's pieces are all laid; beyond, its patches are folded in blocks
// (ground/ground_folds.h).
inline constexpr std::int64_t kLaidWhole = 131072;  // numeric, a setting: no demand hangs on it

// What lies near things, alone: for the same model by other rules.
GroundSquares near_of(const GroundPlaces& ground);

// Throws InputError when no ground is left to live on, or the start is not on living ground.
// `known`: of the same model by other rules, or nothing: of it `near` is kept where it is the same.
GroundPlaces ground_places(const Model& model, const PlaceRules& rules,
                           std::int64_t laid_whole = kLaidWhole, const GroundSquares& known = {});
// The same after the things within `changed` (plan boxes) have changed; nothing else of the model
// has, nor of what the animal stands on, climbs and wades.
GroundPlaces ground_places_again(const Model& model, const PlaceRules& rules,
                                 const GroundPlaces& before,
                                 const std::vector<geom::Box3>& changed);

// The patches of one part; none when it is no place.
std::vector<PatchPtr> part_places(const Model& model, int part, const PlaceRules& rules);

// Ways out, one patch for each section, gate and roof: what the barrier's chains (barrier.h) hold,
// stretch by stretch in their order, so that none is forgotten.
enum class NoExit {
  none,                  // it has pieces of a way out
  closed,                // nothing of its edge is free: roofed, or closed by what lies over it
  with_its_panel,        // another line cuts its panel, which is told with its first stretch
  told_by_the_boundary,  // a vestibule's gate is the boundary's
  behind_a_gate,       // of a vestibule: what leads in is held for a way out, and the entry check's
  a_thing_of_its_own,  // a house's roof is a place, and a way out where it lies beyond the barrier
  leads_indoors        // a house's door: the entry check's
};
struct StretchExit {
  int pieces = 0;
  NoExit why = NoExit::none;  // none exactly when there are pieces
};
struct WaysOut {
  std::vector<PatchPtr> patches;
  std::vector<StretchExit> of_stretch;  // chain by chain
};
WaysOut ways_out(const Model& model, const PlaceRules& rules);
std::vector<PatchPtr> exits(const Model& model, const PlaceRules& rules);

}  // namespace hummock::leap

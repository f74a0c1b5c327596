// Entry: gates and vestibules, and where one open door leads.
//
// Each gate and each door is left open in turn, all others shut, and every one of them is on the
// barrier chain (engine/barrier): for every gate, and for every house door whose outer side is the
// outside, gates drawn or not. A vestibule's second gate left open leads nowhere while the first is
// shut: under, beside and over the first is for the openings, dig and leap checks. Not so where a
// house has its door in the vestibule and another way into the yard (engine/barrier/house_ways.h):
// what stands open for the animal leads past the first gate.
// A house outside that a gate opens into is such a vestibule, its door the second gate, where the
// animal has no other way in (engine/entry/lobby.h): neither of the two alone lets it out. Every
// other house door to the outside is a way out by one door.
// vestibule   drawn, with a second gate; or a lobby.
// long enough vestibule depth ≥ keeper and barrow (common practice, no source), plus the leaf's
//             width when the inner leaf swings into the vestibule. The second gate is taken to open
//             outwards, away from it.
// window      the keeper sees in before opening: a window in gate or vestibule as drawn, or a leaf
//             that is itself seen through (mesh, glass).
// swing       the leaf turns a quarter about one post towards its side. Nothing that stops a body
//             may reach into the swept quarter disc between the leaf's foot and top, nor the ground
//             rise above its foot. The site file does not say where the hinges are: it is free when
//             it is free about one of the posts, and `hinge` says which. Things within kClear of
//             the shut or the fully open leaf, and the fence's own posts, are not counted.
// leads to    found on the model, not from the flags: with the leaf gone, a body is spread over the
//             ground outside the outline from just beyond the gate, wherever its head
//             (least_opening) gets through at some height from half the animal's up to its leap
//             (over a curb: careful): first in steps of kStep, and where those get nowhere in
//             narrower ones (engine/entry/narrow_way.h). If it gets kFar beyond the vestibule, one
//             open door lets the animal out. The doorway must take its head. Over the vestibule's
//             walls: engine/entry/open_vestibule.h, engine/entry/vestibule_walls.h.
// passed      with a barrow from the one gate to the other (vestibule_way.h).
// second      its leaf swings outwards as freely as the first one's; or inwards, where the
// gate        vestibule is deep enough for it beside keeper and barrow.
// people      a person (engine/keepers/walker.h) comes on foot from the edge of the modelled ground
//             to the outermost door, and through all doors into the yard, upright or at least bent
//             (engine/keepers/way_in.h). What is beyond the modelled ground, leaves in the way and
//             bending are told as what the answer rests on (rests_on.h).
// other arm   a vestibule of which any wall stands in the yard is no vestibule.
// Exact for triangles in the swing; the ground's height along the arc is exact on chords of 1/64 of
// a quarter turn.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/keepers/way_in.h"
#include "engine/leap/leap.h"
#include "engine/model/model.h"

namespace hummock::entry {

inline constexpr double kClear = 0.02;  // m; common practice, no source
inline constexpr double kStep = 0.10;   // m; common practice, no source
inline constexpr double kFar = 1.5;     // m; common practice, no source

struct GateRow {
  std::string name;
  Vec3 at;
  bool vestibule = false, second_gate = false, window = false;
  double vestibule_depth_m = 0, needed_depth_m = 0;  // keeper and barrow between two doors
  bool long_enough = false;
  bool swing_free = true;
  std::string in_the_swing;              // what stands there
  std::string in_the_second_swing;       // what stops the second gate's leaf; empty: nothing
  std::optional<keepers::WayIn> people;  // from outside, and through it; nothing: not asked
  int house = -1;                        // of site.houses, of a door to the outside
  std::string in_the_vestibule;          // what leaves no way from gate to gate; empty: nothing
  bool one_open_door_escapes = false;
  bool held_by_things = false;  // it leads nowhere for what stands outside, which is no vestibule
  std::string leads_to;
  std::optional<leap::Result> open_vestibule;  // its search, where one was made (open_vestibule.h)
  bool met = false;
  std::vector<std::string> faults;
  std::string hinge;  // "either post", or the post about which alone it swings free
};
struct Settings {
  double keeper_and_barrow = 2.1;  // m, common practice, no source
  leap::Settings leap;             // for the way out of a vestibule
};
struct Result {
  std::vector<GateRow> gates;
  bool met = false;  // every row; a boundary without any gate is met
};
Result analyse(const Model& model, const Settings& settings = {});
// The rows of house doors, for a head that passes `head` m.
std::vector<GateRow> door_rows(const Model& model, double head, const Settings& settings);

}  // namespace hummock::entry

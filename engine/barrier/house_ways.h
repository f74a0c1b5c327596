// The ways through the walls of houses: doors and vents, and what lies beyond them.
//
// Nothing in a site file holds a door or a vent shut: each stands open, behind a grille to what
// passes its aperture. A way is cut where what lies beyond it changes along the wall or upright
// (wall_slits.h): the fence meets it there, or another house; the fence, or a vestibule's wall,
// stands unbroken on its line up to some height, or has a hole of its own before it; a roof that
// closes the yard lies before it. What opens above such a roof leads outside.
//
// Rooms. Houses that a way of one joins to the other are one room, and what comes in by one way of
// a room goes out by any other: a house with two ways in its walls is a passage, from door to door,
// to a hatch, to a vent. So are, for ways out, houses whose plans have some of their area in common
// (engine/barrier/shared_plans.h): no wall is drawn that parts them there. Those that only touch
// are two.
//
// Sills are measured from the soil straight before the middle of the hole, without snow. Known to
// kWayStep along the wall; beyond is what lies kBeyondWall before it.
#pragma once

#include <string>
#include <vector>

#include "engine/barrier/barrier.h"
#include "engine/barrier/wall_slits.h"

namespace hummock::barrier {

inline constexpr double kWayStep = 0.01;  // m along the wall; numeric, a setting

struct HouseWay {
  int house = -1;                // of site.houses
  int vent = -1;                 // of the house's vents; -1 = its door
  double from = 0.0, to = 0.0;   // m along the opening's edge
  Vec2 a, b;                     // its ends on plan, with the house on the left
  double sill = 0.0, top = 0.0;  // m above datum, of the hole
  double hole_sill = 0.0;        // m above datum, of the hole as it is drawn
  double above_soil = 0.0;       // m, that above the soil before it
  double height = 0.0;           // m, of the hole
  bool whole = true;             // as high as it is drawn
  double ball = 0.0;             // m, diameter of the largest that passes
  double aperture = 0.0;         // m, of the narrowest grille before it; 0 = none
  bool grille = false;
  bool fenced = false;  // that stands unbroken before it
  bool above_roof = false;
  int drain = -1;  // of the fence, through which it leads
  Space beyond;
};

// Door first, then the vents, house by house, along their edges.
std::vector<HouseWay> house_ways(const Model& model);

// Those of them that a head passes, `opening` m wide, and that nothing shuts.
std::vector<HouseWay> open_ways(const Model& model, double opening);

// Whether houses whose plans have area in common are one room: for ways out they are; for the room
// an animal has they are not, since nobody has drawn a way between them.
enum class SharedPlans { joined, apart };

// The room of each house, numbered from 0 in their order, joined by these ways.
std::vector<int> rooms_of(const Model& model, const std::vector<HouseWay>& ways,
                          SharedPlans shared = SharedPlans::joined);

}  // namespace hummock::barrier

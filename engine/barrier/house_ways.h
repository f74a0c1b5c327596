// The ways through the walls of houses: doors and vents, and what lies beyond them.
//
// Nothing in a site file holds a door or a vent shut: each stands open, behind a grille to what
// passes its aperture. A way is cut where what lies beyond it changes along the wall (the fence
// meets it there, or another house) and where the fence, or a vestibule's wall, stands unbroken on
// its line.
//
// Rooms. Houses that a way of one joins to the other are one room, and what comes in by one way of
// a room goes out by any other: a house with two ways in its walls is a passage, from door to door,
// to a hatch, to a vent. What stands inside is not drawn, so for ways out every way is taken to be
// come to from within, however high its sill; own ground does not (engine/usable/house_doors.h).
//
// Sills are measured from the soil straight before the middle of the hole, without snow. Known to
// kWayStep along the wall; beyond is what lies kBeyondWall before it.
#pragma once

#include <string>
#include <vector>

#include "engine/barrier/barrier.h"

namespace hummock::barrier {

inline constexpr double kBeyondWall = 0.02;  // m; numeric, a setting
inline constexpr double kWayStep = 0.01;     // m along the wall; numeric, a setting

struct HouseWay {
  int house = -1;                // of site.houses
  int vent = -1;                 // of the house's vents; -1 = its door
  double from = 0.0, to = 0.0;   // m along the opening's edge
  Vec2 a, b;                     // its ends on plan, with the house on the left
  double sill = 0.0, top = 0.0;  // m above datum, of the hole
  double ball = 0.0;             // m, diameter of the largest that passes
  bool grille = false;
  bool fenced = false;  // that stands unbroken before it
  Space beyond;
};

// Door first, then the vents, house by house, along their edges.
std::vector<HouseWay> house_ways(const Model& model);

// Those of them that a head passes, `opening` m wide, and that nothing shuts.
std::vector<HouseWay> open_ways(const Model& model, double opening);

// The room of each house, numbered from 0 in their order, joined by these ways.
std::vector<int> rooms_of(const Model& model, const std::vector<HouseWay>& ways);

}  // namespace hummock::barrier

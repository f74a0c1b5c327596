// Do people come to a gate from outside, and through it?
//
// From outside: from the outermost of its doors the free floor (floor_walk.h) goes on to the edge
// of the modelled ground, round the yard if need be, never through it: every other gate is shut.
// What lies beyond that edge nobody has drawn, and is not asked. Where the modelled ground ends
// less than a walker's width beyond the door, only what is drawn there was seen: `unseen`. Where a
// survey has no height for the margin, the nearest one stands for it, as for all analyses.
//
// Through it: with its doors open, from the outermost one to a place in the yard that is kBehind
// from the fence all round, or half as far as any straight behind the gate is; where no headroom
// leads there, as round a pool, kAlong from the gate, upright. A house that a gate opens into is
// crossed to its own door past what stands in it, where it has one; that its walls are near is not
// asked.
//
// It is asked upright first, then bent as low as kStooped, then lower, to say what headroom there
// is; with leaves in the way (hedges, woods) closed first, then open. Doors are taken to open:
// their swing is the entry check's.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "engine/barrier/house_ways.h"
#include "engine/brief/assumptions.h"
#include "engine/keepers/floor_walk.h"

namespace hummock::keepers {

// m, beneath and past what hangs over a fence; common practice, no source.
inline constexpr double kBehind = 1.0;
inline constexpr double kAlong = 2.0;  // m; common practice, no source

// One stretch of the way.
struct Stretch {
  bool goes = false;                    // at kStooped or higher
  bool unseen = false;                  // nothing of it is modelled, or too much to look at
  double headroom_m = kUpright;         // to a centimetre, at most kUpright; 0: at none it goes
  std::vector<std::string> leaves;      // through which it goes
  std::vector<std::string> in_the_way;  // where it does not: what stands there, in words
};

struct WayIn {
  Stretch outside, through;
  bool goes() const { return outside.goes && through.goes; }
  double headroom_m() const { return std::min(outside.headroom_m, through.headroom_m); }
};

// A gate that opens into a house is come to by a door of that house, or of one that doors join to
// it: what stands in that other house is not asked.
WayIn way_in(const Yard& yard, const Gateway& gateway, const Walker& walker);

// The way outside of a house's door that leads out, and through the door itself.
WayIn way_to_door(const Yard& yard, const barrier::HouseWay& door, const Walker& walker);

// The houses that the gate opens into: that right behind it, and those that doors join to it.
std::vector<int> houses_behind(const Model& model, const Gateway& gateway);
// The door of the house that leads outside; nothing where it has none.
std::optional<barrier::HouseWay> door_outside(const Model& model, int house);

// What a way that goes rests on: that nothing is in the way where nothing is drawn, that people
// bend, that they pass leaves. `to`: 'north gate'.
std::vector<Assumption> what_it_rests_on(const Site& site, const WayIn& way, const std::string& to);

// Why a way does not go, each a line: "nobody comes to it from outside: 'shed' stands in the way".
// Empty where it goes.
std::vector<std::string> faults_of(const WayIn& way, const std::string& who = "nobody");

}  // namespace hummock::keepers

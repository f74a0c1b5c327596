// What of a house's inside its doors lead to: things stand in it, and its plan may have a waist.
//
// A body is a disc of its width on the floor, clear of the walls as drawn and of every thing in the
// yard that stands in the house (thing_lines.h), at most kInside apart. Places from which it comes
// to one another so are one part of the house; hatches to other houses join theirs. A way in before
// which, within, no such disc fits is none.
#pragma once

#include "engine/barrier/house_ways.h"
#include "engine/usable/house_doors.h"

namespace hummock::usable {

inline constexpr double kInside = 0.05;  // m, between places in a house; numeric, a setting

// Gives every spot the part of its room that lies behind it, erases those with none behind, and
// each house the largest of its parts (one of its own where it has none). `ways`: those between
// houses.
void part_rooms(const Model& model, const Body& body, const std::vector<barrier::HouseWay>& ways,
                HouseDoors& doors);

}  // namespace hummock::usable

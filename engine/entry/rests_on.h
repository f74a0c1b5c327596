// What "no gate left open lets it out" rests on: at each vestibule that holds the animal, what the
// leap check of the open vestibule rests on (open_vestibule.h); and at each gate that leads nowhere
// out, how small a gap its head passes and, without a vestibule, how high a curb it leaps, where
// those are assumed, told or from memory, or the file gives them a careful end
// (engine/brief/assumptions.h). A gate without a vestibule that leads nowhere because of things
// that stand outside rests on their giving no hold and no step: that is not looked at.
//
// At the doors of houses it rests on the head that passes none of what leads into them, and at a
// lobby (lobby.h) with a floor of earth on the animal, if it digs, not digging into it.
//
// That no gate has a fault rests on all of that, and on people's way to it where that is not
// modelled or leads through leaves, or where they must bend (engine/keepers/way_in.h).
//
// The careful value is the file's; else kSmaller of the least opening, kStronger times the leap.
// Both are taken together first; where that lets it out each is asked alone, and its breaking value
// found by halving kHalvings times between the used and the careful one.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/entry/entry.h"
#include "engine/species/doubt.h"

namespace hummock::entry {

inline constexpr double kSmaller = kSmallerHead;    // common practice, no source: as for openings
inline constexpr double kStronger = kStrongerLeap;  // common practice, no source: as for the leap
inline constexpr int kHalvings = 6;                 // numeric, a setting

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress = {});

}  // namespace hummock::entry

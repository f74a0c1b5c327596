// A vestibule whose inner gate is left open, as a yard of its own.
//
// With the inner gate open the vestibule's walls are the barrier, and what stands in it, the lie of
// its ground and what hangs over it are steps like any other. So the leap analysis is run on a yard
// that is the vestibule and the gate's width of ground on either side of the gate, kYardDepth deep
// (or as deep as the yard is there): walls as they were built, the second gate shut, the inner leaf
// gone. Flights from farther inside the yard, through the doorway and over a wall in one, are not
// tried: from nearer the wall the same is easier but where the yard behind is higher.
#pragma once

#include <optional>
#include <string>

#include "engine/brief/assumptions.h"
#include "engine/leap/leap.h"
#include "engine/model/model.h"

namespace hummock::entry {

inline constexpr double kYardDepth = 2.0;  // m; common practice, no source

struct VestibuleEscape {
  bool out = false;   // within the animal's leap, or the search stopped before it was known
  std::string words;  // by what
  std::optional<leap::Result>
      search;  // what was found, for what it rests on; nothing: no vestibule
};

// Nothing out where the gateway has no vestibule.
VestibuleEscape escape_from_vestibule(const Model& model, int gateway,
                                      const leap::Settings& settings);

// What "no way out of the vestibule" rests on (engine/leap/rows/rests_on.h), from the search that
// found none. Empty where it has a way out at the used figures.
RestsOn vestibule_rests_on(const Model& model, int gateway, const leap::Settings& settings,
                           const leap::Result& search, const Progress& progress = {});

}  // namespace hummock::entry

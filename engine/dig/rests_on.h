// What "no tunnel leads out" rests on: how deep and how long the animal digs, where a figure is
// assumed, told or from memory, or the file gives it a careful end (engine/brief/assumptions.h).
//
// The careful value is the file's; else kMore times the used one. The stations found are first
// asked whether any tunnel could be within both careful figures; only where one could is the answer
// worked out again, at most three times (both, length alone, depth alone). An animal that is said
// not to dig at all (0) digs no more at the careful end.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/dig/dig.h"

namespace hummock::dig {

inline constexpr double kMore = 1.5;  // common practice, no source: as for the leap

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress = {});

}  // namespace hummock::dig

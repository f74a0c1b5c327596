// Which rows' own leaps out may be kept when a thing has changed: those of things that did not
// change, whose tested flights pass through neither its old nor its new place, while no way out
// changed (those that things make beyond the boundary too: a row rests on every one).
#pragma once

#include "engine/leap/rows/objects.h"

namespace hummock::leap {

bool same_ways(const std::vector<PatchPtr>& before, const std::vector<PatchPtr>& after);

std::vector<char> rows_to_redo(const std::vector<Furniture>& things,
                               const std::vector<ExitCost>& costs,
                               const std::vector<char>& part_changed,
                               const std::vector<geom::Box3>& changed, bool same_ways_out);

}  // namespace hummock::leap

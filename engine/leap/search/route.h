// The route to a patch, step by step, from what the search found.
#pragma once

#include <vector>

#include "engine/leap/leap.h"
#include "engine/leap/search/minimax.h"

namespace hummock::leap {

// From the living ground to `patch`: leaps, and between them the walk or climb within each place
// (drawn straight; on the ground laid on it).
std::vector<Step> route_to(const Model& model, const std::vector<PatchPtr>& patches,
                           const SearchResult& reached, int patch);

// "over the barrier's top", …
const char* way_in_words(ExitKind kind);

}  // namespace hummock::leap

// The search of a whole site: from the living ground (patch 0) to every other place.
#pragma once

#include "engine/leap/leap.h"
#include "engine/leap/search/minimax.h"

namespace hummock::leap {

// Searched far enough to tell whether the brief is met; steps by the resolution asked.
LinkRules link_rules(const Ability& ability, const Settings& settings);

// `known`: what was tested of this scene before, or nothing.
SearchResult search_site(const Model& model, const std::vector<PatchPtr>& patches,
                         const LinkRules& links, const Progress& progress = {},
                         const KnownFlights* known = nullptr);
// The same without any place taken as gained for want of an end (minimax.h, leave_pockets): what is
// gained is flown to from end to end, at no less than the truth.
SearchResult search_flown(const Model& model, const std::vector<PatchPtr>& patches,
                          const LinkRules& links, const Progress& progress = {});
// As search_site until the first way out, and no further than `key_limit` m: whether there is one
// so far, and at what demand, is the same.
SearchResult seek_exit(const Model& model, const std::vector<PatchPtr>& patches,
                       const LinkRules& links, double key_limit, const Progress& progress = {},
                       const KnownFlights* known = nullptr);

}  // namespace hummock::leap

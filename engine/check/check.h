// Runs the analyses a check asks for and judges the brief by what they find.
//
// An analysis that was not asked for or cannot be (no [place] for shade) stays empty; a requirement
// on it is then `not checked`, with the reason. Analyses that do not wait for one another run side
// by side; the results are the same bytes for any number of threads.
#pragma once

#include "engine/base/progress.h"
#include "engine/check/analyses.h"
#include "engine/check/results.h"

namespace hummock {

// Throws InputError when `only` names something unknown or a requirement does not fit the figure
// it names (engine/check/catalogue.h).
CheckResults run_check(const Model& model, const CheckOptions& options = {},
                       const Progress& progress = {});

// Judges the brief anew by what is there.
void judge_brief(const Model& model, CheckResults& results);

}  // namespace hummock

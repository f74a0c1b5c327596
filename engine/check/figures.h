// All figures of the results as the flat map that the brief reads.
#pragma once

#include "engine/brief/brief.h"
#include "engine/check/results.h"

namespace hummock {

Figures figures_of(const CheckResults& results, const Model& model);

}  // namespace hummock

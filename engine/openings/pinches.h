// Gaps in which an animal may wedge.
#pragma once

#include <vector>

#include "engine/openings/openings.h"

namespace hummock::openings {

// Half the width of the body to the whole of it.
struct PinchRange {
  double from = 0.0, to = 0.0;  // m
};
PinchRange pinch_range(const Species& species);

void add_pinches(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

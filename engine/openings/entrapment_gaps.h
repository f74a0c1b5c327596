// Gaps in which an animal may wedge.
#pragma once

#include <vector>

#include "engine/openings/openings.h"

namespace hummock::openings {

// Half the width of the body to the whole of it: of the narrower, young or grown, to the wider.
struct EntrapmentRange {
  double from = 0.0, to = 0.0;  // m
};
EntrapmentRange entrapment_gap_range(const Species& species);

void add_entrapment_gaps(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

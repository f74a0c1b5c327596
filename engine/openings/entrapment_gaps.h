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
// From the narrowest to the widest that the bodies' careful values and other records say, and a
// quarter to either side where nobody has shown them.
EntrapmentRange careful_gap_range(const Species& species);

// How wide they are, m, the narrowest first.
std::vector<double> entrapment_gaps_within(const Model& model, EntrapmentRange range);

void add_entrapment_gaps(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

// Gaps that meet: under a panel and at a joint, at a leaf's lower corner, two drains side by side,
// a joint below a gap under the roof. Where they run into each other a larger ball passes than
// through either.
//
// The fence is unrolled into one upright plane (x along it, y height): sheets with their drains,
// leaves, what closes the foot, the ground, the roof above. About each end of a sheet and each side
// of a drain the largest circle is looked for that lies free between them with its middle below the
// fence's top. Posts are not counted, as in the other openings; a grille is solid here, its own
// mesh is told with the drain. A corner in plan is unrolled too: what a ball gains by going round
// it is not credited. Only what is larger than each opening beside it is listed.
#pragma once

#include <vector>

#include "engine/openings/openings.h"

namespace hummock::openings {

// After all others: `list` holds the openings it is compared with.
void add_joined_gaps(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

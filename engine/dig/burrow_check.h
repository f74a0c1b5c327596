// Drawn burrows against the barrier: the ways out that dig.h says, from each place of the burrow
// square to every edge within reach, through corners, and askew past the ends of what is buried
// beside it (under a gate, where a skirt is less deep).
#pragma once

#include "engine/dig/dig.h"
#include "engine/dig/stations.h"

namespace hummock::dig {

BurrowRow check_burrow(const Model& model, const BuriedParts& parts, const Burrow& burrow);

}  // namespace hummock::dig

// Drawn burrows against the barrier.
#pragma once

#include "engine/dig/dig.h"
#include "engine/dig/stations.h"

namespace hummock::dig {

BurrowRow check_burrow(const Model& model, const BuriedParts& parts, const Burrow& burrow);

}  // namespace hummock::dig

// How the gates are come to, and what is come to only where an animal may be (service.h).
#pragma once

#include <vector>

#include "engine/service/service.h"

namespace hummock::service {

// A row a gateway, in their order; `reaches` is not yet known.
std::vector<GateRow> ask_at_the_gates(const Model& model);

// Those that have no way free of animals stay shared.
void mark_shared_places(const Model& model, std::vector<Place>& places);

}  // namespace hummock::service

// The ground an animal may be seen on, node by node.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/model/model.h"

namespace hummock::sight {

// 1 for each node of the model's ground that is usable (sight.h says which) and a multiple of
// `stride` along both axes, else 0.
std::vector<std::uint8_t> usable_nodes(const Model& model, int stride);

}  // namespace hummock::sight

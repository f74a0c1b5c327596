// How deep the soil is.
#pragma once

#include <optional>

#include "engine/model/model.h"

namespace hummock {

// From the ground as built (without snow) to rock or liner, m, which lies the depth of soil under
// the lower of the surveyed and the finished ground; nothing = no rock as far as the site says.
std::optional<double> soil_over_rock(const Model& model, Vec2 p);

}  // namespace hummock

// What the settings of a shade analysis may be.
#pragma once

#include "engine/shade/shade.h"

namespace hummock::shade {

// Throws InputError for a model without a place, a place that cannot be, a step, cell or share out
// of range, or a date outside 1900..2100. Returns the place.
const Place& check_settings(const Model& model, const Settings& settings);

}  // namespace hummock::shade

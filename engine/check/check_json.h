// The JSON of `hummock check` (DESIGN §5): an object for each analysis that ran, under its name.
#pragma once

#include <nlohmann/json.hpp>

#include "engine/check/check.h"

namespace hummock {

nlohmann::json to_json(const CheckResults& results, const Model& model);

}  // namespace hummock

// Values of a JSON document by path: "leap.objects[rock].verdict".
//
// A dot goes into an object. [] goes over every item of a list, [NAME] over those whose name, what,
// where or thing is NAME, [N] to the item of that number.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace hummock::escapes {

// All values the path leads to; empty when there is none.
std::vector<nlohmann::json> values_at(const nlohmann::json& top, const std::string& path);

}  // namespace hummock::escapes

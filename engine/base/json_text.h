// How our JSON files are written.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

namespace hummock {

// Indented by two, with a line's end; what is no UTF-8 (a user's name for a thing) is replaced
// there, never a reason to fail.
inline std::string json_text(const nlohmann::json& json) {
  return json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace hummock

#include "engine/openings/openings_json.h"

namespace hummock::openings {

std::optional<LookAt> look_at(const Result& result, const Model&) {
  if (result.list.empty()) return std::nullopt;
  return LookAt{result.list.front().at, 0.9};
}

}  // namespace hummock::openings

#include "engine/sight/sight_json.h"

namespace hummock::sight {

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  if (result.hidden.empty()) return std::nullopt;
  return LookAt{geom::at_height(result.hidden.front().centre,
                                geom::height_at(model.ground, result.hidden.front().centre)),
                3.0};
}

}  // namespace hummock::sight

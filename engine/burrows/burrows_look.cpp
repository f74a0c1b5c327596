#include "engine/burrows/burrows_json.h"

namespace hummock::burrows {

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  if (result.best.empty()) return std::nullopt;
  return LookAt{geom::at_height(result.best.front().at,
                                geom::height_at(model.ground, result.best.front().at)),
                2.0};
}

}  // namespace hummock::burrows

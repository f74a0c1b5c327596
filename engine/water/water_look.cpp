#include "engine/water/water_json.h"

namespace hummock::water {

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  if (result.ponds.empty()) return std::nullopt;
  return LookAt{geom::at_height(result.ponds.front().at,
                                geom::height_at(model.ground, result.ponds.front().at)),
                2.0};
}

}  // namespace hummock::water

#include "engine/dig/dig_json.h"

namespace hummock::dig {

std::optional<LookAt> look_at(const Result& result, const Model& model) {
  return LookAt{geom::at_height(result.worst.at, geom::height_at(model.ground, result.worst.at)),
                2.0};
}

}  // namespace hummock::dig

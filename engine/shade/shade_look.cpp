#include "engine/shade/shade_json.h"

namespace hummock::shade {

std::optional<LookAt> look_at(const Day& result, const Model& model) {
  return LookAt{
      geom::at_height(result.coolest.at, geom::height_at(model.ground, result.coolest.at)), 3.0};
}

}  // namespace hummock::shade

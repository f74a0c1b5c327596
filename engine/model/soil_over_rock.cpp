#include "engine/model/soil_over_rock.h"

#include <algorithm>

namespace hummock {

std::optional<double> soil_over_rock(const Model& model, Vec2 p) {
  if (!model.site.ground.soil_depth) return std::nullopt;
  const double now = height_at(model.ground, p) - model.snow;
  const double before = model.surveyed.z.empty() ? now : height_at(model.surveyed, p);
  return now - (std::min(now, before) - *model.site.ground.soil_depth);
}

}  // namespace hummock

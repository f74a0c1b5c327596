#include "engine/usable/clear_between.h"

#include <algorithm>
#include <iterator>

#include "geometry/terrain/heightfield.h"

namespace hummock::usable {

bool clear_between(const Model& model, Vec2 p, Vec2 q, double height) {
  constexpr double kOfIt[] = {0.25, 0.5, 0.75, 0.95};  // shares; numeric, a setting
  if (!model.body_scene) return true;
  const Vec3 a = at_height(p, geom::height_at(model.ground, p));
  const Vec3 b = at_height(q, geom::height_at(model.ground, q));
  return std::all_of(std::begin(kOfIt), std::end(kOfIt), [&](double share) {
    const Vec3 up{0.0, 0.0, share * height};
    return !model.body_scene->occluded({a + up, b - a, 0.0, 1.0});
  });
}

}  // namespace hummock::usable

#include "engine/usable/start.h"

#include <string>

#include "engine/base/input_error.h"
#include "engine/usable/usable_ground.h"
#include "geometry/plan/polygon.h"

namespace hummock::usable {
namespace {

std::string what_is_there(const Model& model, Vec2 p) {
  for (const House& house : model.site.houses)
    if (geom::contains(house.outline, p)) return "in the house '" + house.name + "'";
  const UsableGround ground(model);
  if (ground.in_solid(p)) return "in a solid thing";
  const double depth = ground.water_depth(p, geom::height_at(model.ground, p));
  if (depth > model.site.species.wade_depth.value) return "in water deeper than the animal wades";
  return {};
}

}  // namespace

void require_start(const Model& model) {
  if (!model.site.leap_start) return;
  const std::string there = what_is_there(model, *model.site.leap_start);
  if (there.empty()) return;
  const Vec2 told = model.to_site(*model.site.leap_start);
  throw InputError({model.site.file.string(), 0, "leap.start"},
                   "[" + std::to_string(told.x) + ", " + std::to_string(told.y) + "], " + there,
                   "open ground it can stand on, not in a house, solid or deep water");
}

}  // namespace hummock::usable

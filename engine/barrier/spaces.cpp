// What lies where on plan.
#include <algorithm>

#include "engine/barrier/barrier.h"
#include "geometry/plan/polygon.h"

namespace hummock::barrier {

Polygon vestibule_outline(const Model& model, int gateway) {
  const Gateway& g = model.gateways[static_cast<std::size_t>(gateway)];
  const Gate& gate = model.site.boundary.gates[static_cast<std::size_t>(g.gate)];
  if (!gate.vestibule) return {};
  const Vec2 out = -geom::left_of(geom::unit(g.b - g.a)) * gate.vestibule->depth;
  return {g.a, g.a + out, g.b + out, g.b};
}

Polygon roof_outline(const Model& model) {
  if (!model.site.roof || model.panels.empty()) return {};
  Polygon own = model.site.roof->outline.value_or(model.outline);
  if (geom::signed_area(own) < 0.0) std::reverse(own.begin(), own.end());
  return own;
}

Space space_at(const Model& model, Vec2 p) {
  for (std::size_t k = 0; k < model.site.houses.size(); ++k) {
    if (geom::contains(model.site.houses[k].outline, p)) {
      return {SpaceKind::house, static_cast<int>(k)};
    }
  }
  for (std::size_t k = 0; k < model.gateways.size(); ++k) {
    const Polygon box = vestibule_outline(model, static_cast<int>(k));
    if (!box.empty() && geom::contains(box, p)) {
      return {SpaceKind::vestibule, static_cast<int>(k)};
    }
  }
  if (geom::contains(model.outline, p)) return {SpaceKind::yard, -1};
  return {};
}

bool bounds_outside(const Stretch& stretch) {
  return (stretch.left.kind == SpaceKind::outside) != (stretch.right.kind == SpaceKind::outside);
}

}  // namespace hummock::barrier

#include "engine/usable/clear_between.h"

#include <algorithm>
#include <iterator>

#include "geometry/plan/node_range.h"
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

std::vector<std::uint8_t> beside_things(const Model& model, const geom::Grid& grid) {
  std::vector<std::uint8_t> out(grid.size(), 0);
  for (const Part& part : model.parts) {
    if (!part.blocks_body || part.kind == PartKind::ground || part.mesh.empty()) continue;
    const geom::Box3 box = geom::bounds(part.mesh);
    const Vec2 cell{grid.cell, grid.cell};
    geom::each_node(grid, geom::nodes_about(grid, xy(box.lo), xy(box.hi) + cell),
                    [&](std::size_t n) { out[n] = 1; });
  }
  return out;
}

}  // namespace hummock::usable

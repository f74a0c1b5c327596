#include "engine/shade/beam/covered_ground.h"

#include <algorithm>

namespace hummock::shade {
namespace {

bool is_solid(const Part& p) {
  return p.closed && p.blocks_body && !p.mesh.empty() &&
         (p.kind == PartKind::object || p.kind == PartKind::den || p.kind == PartKind::house ||
          p.kind == PartKind::post);
}

}  // namespace

CoveredGround::CoveredGround(const Model& model) : ground_(&model.ground) {
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    if (!is_solid(model.parts[k])) continue;
    solids_.add_mesh(model.parts[k].mesh, static_cast<std::int32_t>(k));
    boxes_.push_back(geom::bounds(model.parts[k].mesh));
  }
  solids_.commit();
}

bool CoveredGround::at(Vec2 p, double room) const {
  const bool near = std::any_of(boxes_.begin(), boxes_.end(), [&](const geom::Box3& b) {
    return p.x >= b.lo.x && p.x <= b.hi.x && p.y >= b.lo.y && p.y <= b.hi.y;
  });
  if (!near) return false;
  constexpr double kOff = 0.001;
  const geom::Hit hit =
      solids_.first_hit({at_height(p, height_at(*ground_, p) + kOff), {0.0, 0.0, 1.0}});
  // Straight up, the first face met from within looks up; from below it looks down.
  return hit && (hit.normal.z > 0.0 || hit.t < room);
}

}  // namespace hummock::shade

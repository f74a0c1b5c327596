#include "engine/usable/thing_tops.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace hummock::usable {
namespace {

constexpr double kNoTop = std::numeric_limits<double>::quiet_NaN();

bool is_thing(const Part& part) {
  return part.kind == PartKind::object && part.blocks_body && !part.mesh.empty();
}

std::vector<geom::Box3> boxes_of_things(const Model& model) {
  std::vector<geom::Box3> boxes;
  for (const Part& part : model.parts)
    if (is_thing(part)) boxes.push_back(geom::bounds(part.mesh));
  return boxes;
}

bool over_any(const std::vector<geom::Box3>& boxes, Vec2 p) {
  return std::any_of(boxes.begin(), boxes.end(), [&](const geom::Box3& b) {
    return p.x >= b.lo.x && p.x <= b.hi.x && p.y >= b.lo.y && p.y <= b.hi.y;
  });
}

bool stands_on(const Part& part, Vec3 normal, double steepest) {
  if (!is_thing(part) || normal.z <= 0.0) return false;
  return part.climbable || std::hypot(normal.x, normal.y) <= steepest * normal.z;
}

double top_at(const Model& model, const UsableGround& ground, Vec2 p) {
  constexpr double kDown = 1e4;  // m
  const double z = geom::height_at(model.ground, p);
  double top = kNoTop, ceiling = std::numeric_limits<double>::infinity();
  std::vector<geom::Hit> hits =
      model.body_scene->all_hits({{p.x, p.y, z + 0.5e-3}, {0.0, 0.0, 1.0}, 0.0, kDown});
  for (auto hit = hits.rbegin(); hit != hits.rend(); ++hit) {
    if (hit->id == kGroundId) continue;
    const Part& part = model.parts[static_cast<std::size_t>(hit->id)];
    const double height = z + 0.5e-3 + hit->t;
    const bool clear = ceiling - height >= ground.body().crouch;
    if (clear && stands_on(part, hit->normal, ground.steepest())) {
      top = height;
      break;
    }
    ceiling = height;
  }
  return top;
}

}  // namespace

std::vector<double> thing_tops(const Model& model, const UsableGround& ground,
                               const geom::Grid& grid) {
  std::vector<double> tops(grid.size(), kNoTop);
  const std::vector<geom::Box3> boxes = boxes_of_things(model);
  if (boxes.empty() || !model.body_scene) return tops;
  tbb::parallel_for(0, grid.ny, [&](int j) {
    for (int i = 0; i < grid.nx; ++i) {
      const Vec2 p = grid.node(i, j);
      if (over_any(boxes, p) && geom::contains(model.outline, p))
        tops[grid.index(i, j)] = top_at(model, ground, p);
    }
  });
  return tops;
}

}  // namespace hummock::usable

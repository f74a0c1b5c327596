#include "engine/usable/thing_tops.h"

#include <tbb/parallel_for.h>

#include <cmath>
#include <cstdint>
#include <limits>

#include "geometry/plan/node_range.h"

namespace hummock::usable {
namespace {

constexpr double kNoTop = std::numeric_limits<double>::quiet_NaN();

bool is_thing(const Part& part) {
  return part.kind == PartKind::object && part.blocks_body && !part.mesh.empty();
}

bool over(const geom::Box3& b, Vec2 p) {
  return p.x >= b.lo.x && p.x <= b.hi.x && p.y >= b.lo.y && p.y <= b.hi.y;
}

// The nodes within some thing's box: only those about each box are asked.
std::vector<std::uint8_t> nodes_over_things(const Model& model, const geom::Grid& grid) {
  std::vector<std::uint8_t> out(grid.size(), 0);
  for (const Part& part : model.parts) {
    if (!is_thing(part)) continue;
    const geom::Box3 box = geom::bounds(part.mesh);
    // A node more either way than the division may be off.
    const Vec2 cell{grid.cell, grid.cell};
    const geom::NodeRange about = geom::nodes_about(grid, xy(box.lo) - cell, xy(box.hi) + cell);
    for (int j = about.j0; j <= about.j1; ++j)
      for (int i = about.i0; i <= about.i1; ++i)
        if (over(box, grid.node(i, j))) out[grid.index(i, j)] = 1;
  }
  return out;
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
  if (!model.body_scene) return tops;
  const std::vector<std::uint8_t> over_things = nodes_over_things(model, grid);
  tbb::parallel_for(0, grid.ny, [&](int j) {
    for (int i = 0; i < grid.nx; ++i) {
      const std::size_t n = grid.index(i, j);
      if (over_things[n] == 0) continue;
      const Vec2 p = grid.node(i, j);
      if (geom::contains(model.outline, p)) tops[n] = top_at(model, ground, p);
    }
  });
  return tops;
}

}  // namespace hummock::usable

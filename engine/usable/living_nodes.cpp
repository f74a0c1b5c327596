#include "engine/usable/living_nodes.h"

#include <tbb/parallel_for.h>

#include <algorithm>

#include "engine/usable/body_patches.h"
#include "engine/usable/kept_answers.h"
#include "engine/usable/own_ground.h"
#include "geometry/plan/polygon_cells.h"

namespace hummock::usable {
namespace {

// By central differences over a cell of the ground either way, one-sided at its rim.
Vec2 gradient_at(const geom::Heightfield& ground, Vec2 p) {
  const geom::Grid& g = ground.grid;
  const double x0 = std::max(g.x0, p.x - g.cell), x1 = std::min(g.x_max(), p.x + g.cell);
  const double y0 = std::max(g.y0, p.y - g.cell), y1 = std::min(g.y_max(), p.y + g.cell);
  const auto rise = [&](Vec2 a, Vec2 b) {
    return geom::height_at(ground, b) - geom::height_at(ground, a);
  };
  return {x1 > x0 ? rise({x0, p.y}, {x1, p.y}) / (x1 - x0) : 0.0,
          y1 > y0 ? rise({p.x, y0}, {p.x, y1}) / (y1 - y0) : 0.0};
}

// Within the outline or on its line: cells cut by it are asked exactly.
std::vector<std::uint8_t> inside_or_on(const geom::Grid& g, const Polygon& outline) {
  std::vector<std::uint8_t> in = geom::nodes_inside(g, outline);
  const std::vector<geom::Cover> cover = geom::cell_cover(g, outline);
  for (int j = 0; j + 1 < g.ny; ++j)
    for (int i = 0; i + 1 < g.nx; ++i) {
      const std::size_t cell = static_cast<std::size_t>(j) * static_cast<std::size_t>(g.nx - 1) +
                               static_cast<std::size_t>(i);
      if (cover[cell] != geom::Cover::part) continue;
      for (const auto& [a, b] : {Offset{i, j}, {i + 1, j}, {i, j + 1}, {i + 1, j + 1}})
        if (in[g.index(a, b)] == 0 && geom::contains(outline, g.node(a, b))) in[g.index(a, b)] = 1;
    }
  return in;
}

void keep_own(const std::vector<std::uint8_t>& own, Nodes& nodes) {
  nodes.beyond.assign(own.size(), 0);
  for (std::size_t n = 0; n < own.size(); ++n) {
    if (nodes.live[n] == 0 || own[n] != 0) continue;
    nodes.live[n] = 0;
    nodes.beyond[n] = 1;
  }
}

Nodes work_out(const Model& model, const UsableGround& ground, const geom::Grid& grid) {
  Nodes out{grid, inside_or_on(grid, model.outline), {}, {}, {}, {}};
  out.stand.assign(grid.size(), 0);
  std::vector<Being> walk(grid.size(), Being::nowhere);
  tbb::parallel_for(0, grid.ny, [&](int j) {
    for (int i = 0; i < grid.nx; ++i) {
      const std::size_t n = grid.index(i, j);
      if (out.inside[n] == 0) continue;
      const Vec2 p = grid.node(i, j);
      const double height = geom::height_at(model.ground, p);
      const Vec2 gradient = gradient_at(model.ground, p);
      out.stand[n] = ground.can_stand(p, height, gradient) ? 1 : 0;
      walk[n] = out.stand[n] != 0 ? Being::on_ground : ground.walking_at(p, height, gradient);
    }
  });
  out.live = body_patches(grid, out.stand, ground.body().length, ground.body().width);
  Own own = own_ground(model, ground, grid, walk);
  keep_own(own.nodes, out);
  out.houses = std::move(own.houses);
  return out;
}

}  // namespace

Nodes find_nodes(const Model& model, const UsableGround& ground, const geom::Grid& grid) {
  const auto work = [&] { return work_out(model, ground, grid); };
  if (!keeps(model, grid)) return work();
  return *model.kept->nodes.find(question_of(model, ground, grid), work);
}

Nodes find_nodes(const Model& model, const UsableGround& ground) {
  return find_nodes(model, ground, model.ground.grid);
}

}  // namespace hummock::usable

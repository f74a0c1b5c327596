#include "engine/sight/usable_nodes.h"

#include "engine/usable/living_nodes.h"
#include "geometry/plan/polygon_cells.h"

namespace hummock::sight {
namespace {

constexpr double kOnLine = 1e-6;  // m

void note_those_on_the_line(const Model& model, std::vector<std::uint8_t>& mask) {
  const geom::Grid& g = model.ground.grid;
  const std::vector<geom::Cover> cover = geom::cell_cover(g, model.outline);
  for (int j = 0; j + 1 < g.ny; ++j)
    for (int i = 0; i + 1 < g.nx; ++i) {
      const std::size_t cell = static_cast<std::size_t>(j) * static_cast<std::size_t>(g.nx - 1) +
                               static_cast<std::size_t>(i);
      if (cover[cell] != geom::Cover::part) continue;
      for (const std::size_t n :
           {g.index(i, j), g.index(i + 1, j), g.index(i, j + 1), g.index(i + 1, j + 1)}) {
        const Vec2 p = g.node(static_cast<int>(n % static_cast<std::size_t>(g.nx)),
                              static_cast<int>(n / static_cast<std::size_t>(g.nx)));
        if (mask[n] == kUsable && geom::distance_to_edges(model.outline, p) < kOnLine)
          mask[n] = kOnTheLine;
      }
    }
}

}  // namespace

double eyes_up(const Model& model) {
  return model.site.species.eye_height.value;
}

Vec2 target_place(const Model& model, Vec2 node, std::uint8_t use) {
  if (use != kOnTheLine) return node;
  constexpr double kInside = 0.01;  // m
  Vec2 in{};
  for (std::size_t k = 0; k < model.outline.size(); ++k) {
    const Vec2 a = model.outline[k], b = model.outline[(k + 1) % model.outline.size()];
    if (geom::distance_to_segment(node, a, b) < kOnLine)
      in = in + geom::left_of(geom::unit(b - a));  // the outline runs counter-clockwise
  }
  return node + in * kInside;
}

std::vector<std::uint8_t> usable_nodes(const Model& model, int stride) {
  const geom::Grid& g = model.ground.grid;
  const usable::UsableGround ground(model);
  std::vector<std::uint8_t> mask = usable::find_nodes(model, ground).live;
  // Of the nodes on the outline those of one side only, so that nodes times cells is the area.
  const std::vector<std::uint8_t> counted = geom::nodes_inside(g, model.outline);
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const std::size_t n = g.index(i, j);
      if (i % stride != 0 || j % stride != 0 || counted[n] == 0) mask[n] = kNotUsable;
    }
  note_those_on_the_line(model, mask);
  return mask;
}

}  // namespace hummock::sight

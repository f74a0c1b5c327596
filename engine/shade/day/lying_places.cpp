#include "engine/shade/day/lying_places.h"

#include <algorithm>

#include "engine/usable/usable_area.h"
#include "geometry/plan/polygon.h"

namespace hummock::shade {

LyingPlaces lying_places(const Model& model, const geom::Grid& grid) {
  constexpr double kOffTheLine = 1e-6;  // m
  const usable::UsableGround ground(model);
  const usable::Nodes own = usable::find_nodes(model, ground);
  LyingPlaces out;
  out.area_m2 = usable::living_area(model, ground, own);
  out.node = grid == model.ground.grid ? own.live : usable::find_nodes(model, ground, grid).live;
  const double off = std::max(ground.body().width, kOffTheLine);
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      std::uint8_t& n = out.node[grid.index(i, j)];
      if (n != 0 && geom::distance_to_edges(model.outline, grid.node(i, j)) < off) n = 0;
    }
  return out;
}

}  // namespace hummock::shade

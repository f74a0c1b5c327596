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
  out.body_length = ground.body().length;
  out.body_width = ground.body().width;
  out.body_height = ground.body().height;
  out.node = grid == model.ground.grid ? own.live : usable::find_nodes(model, ground, grid).live;
  double off_the_line = 0.0, places = 0.0;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      std::uint8_t& n = out.node[grid.index(i, j)];
      if (n == 0) continue;
      const double off = geom::distance_to_edges(model.outline, grid.node(i, j));
      if (off >= kOffTheLine) off_the_line += 1.0;
      n = off >= std::max(out.body_width, kOffTheLine) ? 1 : 0;
      places += n;
    }
  if (off_the_line > 0.0)
    out.area_m2 = usable::living_area(model, ground, own) * places / off_the_line;
  return out;
}

}  // namespace hummock::shade

// Places to lie, against the distance of each from the outline.
#include "engine/shade/day/lying_places.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/usable/usable_area.h"
#include "geometry/plan/polygon.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

TEST(LyingPlaces, are_a_body_s_width_from_the_outline_and_no_fewer) {
  Model m = yard(0, 0, 22, 14, 0.1);
  m.outline = {{0.3, 0.1}, {21.7, 1.3}, {20.9, 13.8}, {9.4, 12.1}, {8.8, 6.7}, {1.2, 7.7}};
  m.site.species.body.value = {0.9, 0.45, 0.5};
  const geom::Grid& grid = m.ground.grid;
  const usable::UsableGround ground(m);
  const usable::Nodes nodes = usable::find_nodes(m, ground);
  const LyingPlaces lying = lying_places(m, grid);
  double places = 0, off_the_line = 0, far = 0;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      const std::size_t n = grid.index(i, j);
      const double off = geom::distance_to_edges(m.outline, grid.node(i, j));
      const bool lies = nodes.live[n] != 0 && off >= lying.body_width;
      ASSERT_EQ(lying.node[n] != 0, lies) << i << " " << j;
      places += lies ? 1 : 0;
      off_the_line += nodes.live[n] != 0 && off >= 1e-6 ? 1 : 0;
      far += lies && off > 3.0 ? 1 : 0;
    }
  EXPECT_GT(far, 1000.0);  // in blocks that are passed over
  EXPECT_EQ(lying.area_m2, usable::living_area(m, ground, nodes) * places / off_the_line);
}

}  // namespace
}  // namespace hummock::shade

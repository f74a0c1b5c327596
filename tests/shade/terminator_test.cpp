// Where the ground begins to face away from the sun: by its triangles' own normals.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// Level to the east, a drop of 60° to the west: the edge has the sun from the east at 20°, though
// the mean of both sides falls away from it at 41°.
TEST(Terminator, the_edge_of_a_level_bench_has_the_sun_that_shines_along_it) {
  const Model m = yard(-4, -4, 4, 4, 0.25,
                       [](double x, double) { return x < 0.0 ? x * std::tan(1.0472) : 0.0; });
  for (const double azimuth : {88.0, 91.0}) {
    const geom::Raster b = beam(m, sun_at(azimuth, 20.0), {});
    for (int j = 1; j + 1 < b.grid.ny; ++j) {
      EXPECT_EQ(b.at(16, j), 1.0F) << j;  // x = 0
      EXPECT_EQ(b.at(15, j), 0.0F) << j;
    }
  }
}

// A bump of one node: its east side faces a sun that stands a degree above its slope, its west side
// is darker than the sun stands high.
TEST(Terminator, a_side_of_one_cell_that_is_steeper_than_the_sun_is_dark) {
  const double steep = std::tan(21.0 * geom::kDegree);
  const Model m = yard(-2, -2, 2, 2, 0.1, [&](double x, double y) {
    return std::abs(x) < 0.05 && std::abs(y) < 0.05 ? 0.1 * steep : 0.0;
  });
  const geom::Raster b = beam(m, sun_at(90.0, 20.0), {});
  EXPECT_EQ(b.at(20, 20), 1.0F);
  EXPECT_EQ(b.at(19, 20), 0.0F);  // a ray from 1 mm above it would pass 0.5 mm over the bump
  EXPECT_EQ(b.at(21, 20), 1.0F);
}

// On rough ground: no node has sun whose line leaves over a triangle that faces away, asked of the
// surface itself a hair along the line.
TEST(Terminator, no_node_of_rough_ground_has_sun_through_its_own_triangle) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> unit_range(-1.0, 1.0);
  for (const double cell : {0.0, 0.07}) {
    const Model m = yard(
        -3, -3, 3, 3, 0.1, [&](double x, double) { return 0.3 * x + 0.02 * unit_range(random); },
        0.3);
    Settings settings;
    settings.cell = cell;
    int away = 0;
    for (const sun::Position& s : twenty_suns()) {
      const geom::Raster b = beam(m, s, settings);
      const Vec2 ahead = unit(xy(s.towards)) * 1e-6;
      for (int j = 1; j + 1 < b.grid.ny; ++j)
        for (int i = 1; i + 1 < b.grid.nx; ++i) {
          const Vec2 p = b.grid.node(i, j) + ahead;
          if (std::isnan(b.at(i, j)) || dot(normal_at(m.ground, p), s.towards) > -1e-6) continue;
          ++away;
          ASSERT_EQ(b.at(i, j), 0.0F) << i << " " << j;
        }
    }
    EXPECT_GT(away, 500);
  }
}

}  // namespace
}  // namespace hummock::shade

#include "geometry/plan/contours.h"

#include <gtest/gtest.h>

namespace hummock::geom {
namespace {

TEST(Contours, OfAConeAreClosedRingsOfTheRightLength) {
  Grid grid{-5, -5, 0.1, 101, 101};
  Raster cone(grid);
  for (int j = 0; j < grid.ny; ++j) {
    for (int i = 0; i < grid.nx; ++i) cone.at(i, j) = static_cast<float>(length(grid.node(i, j)));
  }
  int rings = 0;
  for (const Contour& c : contours(cone, 1.0, 0.5)) {
    if (c.level > 4.9) continue;
    ++rings;
    EXPECT_EQ(c.line.front(), c.line.back());
    double sum = 0.0;
    for (std::size_t k = 0; k + 1 < c.line.size(); ++k) {
      sum += distance(c.line[k], c.line[k + 1]);
      EXPECT_NEAR(length(c.line[k]), c.level, 0.01);
    }
    EXPECT_NEAR(sum, 2 * kPi * c.level, 0.02 * c.level + 0.02);
  }
  EXPECT_EQ(rings, 5);  // 0.5, 1.5, 2.5, 3.5, 4.5
}

TEST(Contours, OfATiltedPlaneAreOneStraightLineALevel) {
  Grid grid{0, 0, 0.5, 11, 9};
  Raster plane(grid);
  for (int j = 0; j < grid.ny; ++j) {
    for (int i = 0; i < grid.nx; ++i) plane.at(i, j) = static_cast<float>(grid.node(i, j).x);
  }
  const auto lines = contours(plane, 1.0, 0.25);
  ASSERT_EQ(lines.size(), 5U);  // 0.25 … 4.25
  for (const Contour& c : lines) {
    for (Vec2 p : c.line) EXPECT_NEAR(p.x, c.level, 1e-6);
    EXPECT_NEAR(std::abs(c.line.front().y - c.line.back().y), 4.0, 1e-9);
  }
}

TEST(Contours, CellsWithoutValueAndLevelGroundGiveNone) {
  Raster empty(Grid{0, 0, 1, 5, 5});
  EXPECT_TRUE(contours(empty, 1.0).empty());
  EXPECT_TRUE(contours(Raster(Grid{0, 0, 1, 5, 5}, 2.0F), 1.0).empty());
}

TEST(Contours, StepsAreRound) {
  EXPECT_DOUBLE_EQ(round_step(0.0, 10.0, 10), 1.0);
  EXPECT_DOUBLE_EQ(round_step(0.0, 0.9, 8), 0.2);
  EXPECT_DOUBLE_EQ(round_step(0.0, 3.1, 8), 0.5);
}

}  // namespace
}  // namespace hummock::geom

#include "geometry/plan/contours.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <random>

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

// Length of the level's line in one triangle, from where it crosses the sides.
double length_in(const std::array<Vec2, 3>& at, const std::array<double, 3>& z, double level) {
  std::vector<Vec2> ends;
  for (std::size_t k = 0; k < 3; ++k) {
    const std::size_t n = (k + 1) % 3;
    if ((z[k] >= level) == (z[n] >= level)) continue;
    ends.push_back(at[k] + (at[n] - at[k]) * ((level - z[k]) / (z[n] - z[k])));
  }
  return ends.empty() ? 0.0 : distance(ends[0], ends[1]);
}

TEST(Contours, AreAsLongAsTheirPiecesTriangleByTriangle) {
  std::mt19937 random(12);
  for (int round = 0; round < 40; ++round) {
    SCOPED_TRACE("seed 12, round " + std::to_string(round));
    const Grid g{-1, 2, 0.3, 2 + static_cast<int>(random() % 20),
                 2 + static_cast<int>(random() % 20)};
    Raster r(g);
    // Whole numbers, so that nodes lie on levels too; some without a value.
    for (float& v : r.values)
      v = random() % 9 == 0 ? NAN : 0.5F * static_cast<float>(random() % (round % 2 == 0 ? 5 : 50));
    std::map<double, double> length;
    for (const Contour& c : contours(r, 1.0))
      for (std::size_t k = 0; k + 1 < c.line.size(); ++k)
        length[c.level] += distance(c.line[k], c.line[k + 1]);
    for (double level = 0.0; level <= 25.0; level += 1.0) {
      double sum = 0.0;
      for (int j = 0; j + 1 < g.ny; ++j)
        for (int i = 0; i + 1 < g.nx; ++i) {
          const std::array<double, 4> z{r.at(i, j), r.at(i + 1, j), r.at(i + 1, j + 1),
                                        r.at(i, j + 1)};
          if (std::isnan(z[0] + z[1] + z[2] + z[3])) continue;
          const Vec2 b = g.node(i + 1, j), d = g.node(i, j + 1);
          sum += length_in({g.node(i, j), b, d}, {z[0], z[1], z[3]}, level);
          sum += length_in({g.node(i + 1, j + 1), d, b}, {z[2], z[3], z[1]}, level);
        }
      EXPECT_NEAR(length[level], sum, 1e-9) << level;
    }
  }
}

TEST(Contours, StepsAreRound) {
  EXPECT_DOUBLE_EQ(round_step(0.0, 10.0, 10), 1.0);
  EXPECT_DOUBLE_EQ(round_step(0.0, 0.9, 8), 0.2);
  EXPECT_DOUBLE_EQ(round_step(0.0, 3.1, 8), 0.5);
}

}  // namespace
}  // namespace hummock::geom

#include "geometry/mesh/prism_volume.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::Heightfield;
using geom::PrismSums;
using geom::Vec2;

Heightfield level_like(const Heightfield& h, double z) {
  Heightfield out = h;
  out.z.assign(h.grid.size(), z);
  return out;
}

TEST(PrismVolume, OnePrismIsItsAreaTimesTheMeanOfItsEdges) {
  const PrismSums s = geom::prism(2.0, 1.0, 2.0, 6.0);
  EXPECT_DOUBLE_EQ(s.above_m3, 6.0);
  EXPECT_DOUBLE_EQ(s.above_area_m2, 2.0);
  EXPECT_EQ(s.below_m3, 0.0);
}

TEST(PrismVolume, APrismThroughZeroIsCutAtTheZeroLine) {
  // Corners 1, −1, −1: the tip is half as long along both edges: a quarter of the area, 1/3 high.
  const PrismSums s = geom::prism(1.0, 1.0, -1.0, -1.0);
  EXPECT_DOUBLE_EQ(s.above_area_m2, 0.25);
  EXPECT_DOUBLE_EQ(s.above_m3, 0.25 / 3.0);
  EXPECT_DOUBLE_EQ(s.below_m3, 1.0 / 3.0 + 0.25 / 3.0);
  EXPECT_DOUBLE_EQ(s.below_area_m2, 0.75);
}

TEST(PrismVolume, APrismAgreesWithSummingThinColumns) {
  std::mt19937 rng(5);
  std::uniform_real_distribution<double> d(-1.0, 1.0);
  for (int round = 0; round < 50; ++round) {
    const double a = d(rng), b = d(rng), c = round % 5 == 0 ? 0.0 : d(rng);
    const PrismSums s = geom::prism(0.5, a, b, c);
    double above = 0.0, below = 0.0;
    const int n = 400;  // half-unit right triangle, mid-points of n × n small triangles
    for (int i = 0; i < n; ++i)
      for (int j = 0; j + i < n; ++j)
        for (int up = 0; up < 2; ++up) {
          if (up == 1 && i + j + 2 > n) continue;
          const double u = (i + (up == 1 ? 2.0 : 1.0) / 3.0) / n;
          const double v = (j + (up == 1 ? 2.0 : 1.0) / 3.0) / n;
          const double z = a + (b - a) * u + (c - a) * v;
          (z > 0.0 ? above : below) += std::abs(z) * 0.5 / n / n;
        }
    ASSERT_NEAR(s.above_m3, above, 2e-5) << "seed 5, round " << round;
    ASSERT_NEAR(s.below_m3, below, 2e-5) << "seed 5, round " << round;
    ASSERT_NEAR(s.above_area_m2 + s.below_area_m2, 0.5, 1e-15);
  }
}

// By exact arithmetic on the file: cut 5 895 075 and fill 5 422 075 m³ at 130 m are of 86 × 60
// blocks at the mean of their corners. Prisms split each block at the zero line, so both sides are
// larger by the same amount: the difference of the two sums is the same whole number, exactly.
TEST(PrismVolume, OnTheVolcanoCutLessFillIsThatOfTheCellMeans) {
  const Heightfield h = tests::volcano();
  const PrismSums s = geom::prism_sums(h, level_like(h, 130.0));
  double cut = 0.0, fill = 0.0;
  for (int j = 0; j + 1 < h.grid.ny; ++j)
    for (int i = 0; i + 1 < h.grid.nx; ++i) {
      const double m =
          (h.at(i, j) + h.at(i + 1, j) + h.at(i, j + 1) + h.at(i + 1, j + 1)) / 4.0 - 130.0;
      (m > 0.0 ? cut : fill) += std::abs(m) * 100.0;
    }
  EXPECT_NEAR(cut, 5895075.0, 1e-6);
  EXPECT_NEAR(fill, 5422075.0, 1e-6);
  // Two triangles share the diagonal: (a + 2b + c + 2d) / 6, not the mean of four.
  double twist = 0.0;
  for (int j = 0; j + 1 < h.grid.ny; ++j)
    for (int i = 0; i + 1 < h.grid.nx; ++i)
      twist += 100.0 / 12.0 * (h.at(i + 1, j) + h.at(i, j + 1) - h.at(i, j) - h.at(i + 1, j + 1));
  EXPECT_NEAR(s.above_m3 - s.below_m3, cut - fill + twist, 1e-5);
  EXPECT_GT(s.above_m3, cut - std::abs(twist));
  EXPECT_LT(std::abs(s.above_m3 / cut - 1.0), 0.005);
  // Only triangles wholly at 130 m belong to neither side.
  EXPECT_LE(s.above_area_m2 + s.below_area_m2, 86.0 * 60.0 * 100.0);
  EXPECT_GT(s.above_area_m2 + s.below_area_m2, 0.99 * 86.0 * 60.0 * 100.0);
  // Above 94 m nothing changes sign: 19 049 000 m³ by cell means.
  const PrismSums low = geom::prism_sums(h, level_like(h, 94.0));
  EXPECT_NEAR(low.above_m3, 19049000.0 + twist, 1e-5);
  EXPECT_EQ(low.below_m3, 0.0);
}

TEST(PrismVolume, AFrustumIsPrismoidalNotAverageEndArea) {
  // 4 × 4 at the foot, 2 × 2 at the top, 1 high: 28/3; average end area would say 10. With nodes on
  // its edges the square heap is facets of the grid, except that the hips run along one diagonal
  // only of the two directions: those cells are off by a known amount each.
  const auto heap = [](double x, double y) {
    return std::clamp(2.0 - std::max(std::abs(x), std::abs(y)), 0.0, 1.0);
  };
  double before = 1e9;
  for (const double cell : {0.1, 0.05, 0.025}) {
    const Heightfield h = tests::surface({-3, -3}, {3, 3}, cell, heap);
    const double v = geom::prism_sums(h, level_like(h, 0.0)).above_m3;
    // Two hips of 1/cell cells run across the diagonal; each such cell loses cell³/6... or gains:
    // the facet over a ridge cell cuts the ridge off.
    const double cells = 2.0 / cell;
    EXPECT_NEAR(v, 28.0 / 3.0 - cells * cell * cell * cell / 6.0, 1e-9);
    EXPECT_LT(std::abs(v - 28.0 / 3.0), before);
    before = std::abs(v - 28.0 / 3.0);
  }
}

TEST(PrismVolume, SwappingTheGroundsSwapsCutAndFill) {
  const Heightfield h = tests::volcano();
  const Heightfield flat = level_like(h, 121.5);
  const PrismSums a = geom::prism_sums(h, flat), b = geom::prism_sums(flat, h);
  EXPECT_DOUBLE_EQ(a.above_m3, b.below_m3);
  EXPECT_DOUBLE_EQ(a.below_area_m2, b.above_area_m2);
}

TEST(PrismVolume, PartsInsidePolygonsAddUpToTheWhole) {
  const Heightfield h = tests::volcano();
  const Heightfield flat = level_like(h, 130.0);
  const PrismSums whole = geom::prism_sums(h, flat);
  const geom::Grid& g = h.grid;
  const Vec2 c{313.7, 271.3};
  const geom::Polygon parts[] = {{{g.x0, g.y0}, {g.x_max(), g.y0}, {g.x_max(), g.y_max()}, c},
                                 {{g.x0, g.y0}, c, {g.x_max(), g.y_max()}, {g.x0, g.y_max()}}};
  PrismSums sum;
  for (const geom::Polygon& p : parts) sum += geom::prism_sums(h, flat, p);
  EXPECT_NEAR(sum.above_m3, whole.above_m3, 1e-3);
  EXPECT_NEAR(sum.below_m3, whole.below_m3, 1e-3);
  EXPECT_NEAR(sum.above_area_m2, whole.above_area_m2, 1e-4);
}

TEST(PrismVolume, GroundsOnDifferentGridsAreRefused) {
  const Heightfield a = geom::level_ground({{0, 0}, {1, 1}}, 0.1, 0.0);
  Heightfield b = a;
  b.grid.x0 = 0.05;
  EXPECT_THROW(geom::prism_sums(a, b), std::invalid_argument);
}

}  // namespace
}  // namespace hummock

#include "engine/ground/forms.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/ground/basins.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::Heightfield;
using geom::kDegree;
using geom::kPi;

constexpr double kWide = 10.0;
const Polygon kSquare{{0, 0}, {kWide, 0}, {kWide, kWide}, {0, kWide}};

Heightfield level(double cell) {
  return geom::level_ground({{0, 0}, {kWide, kWide}}, cell, 0.0);
}

double volume(const Heightfield& ground) {
  return geom::surface_sums(ground, kSquare, 0.0).volume_above_m3;
}

GroundForm form(FormKind kind) {
  GroundForm f;
  f.kind = kind;
  f.at = {5.03, 4.97};
  f.radius = 2.5;
  f.height = 0.9;
  return f;
}

// ∫ h (1 + cos(πd/r))/2 over the disc = 2π·h/2·(r²/2 + ∫ d cos(πd/r) dd) with
// ∫₀ʳ d cos(πd/r) dd = −2r²/π², so V = π r² h (1 − 4/π²)/2.
TEST(Forms, MoundHasItsClosedFormVolumeAndTheErrorFallsWithTheCellSquared) {
  const double exact = kPi * 2.5 * 2.5 * 0.9 * (1.0 - 4.0 / (kPi * kPi)) / 2.0;
  double last = 0.0;
  for (double cell : {0.4, 0.2, 0.1}) {
    Heightfield ground = level(cell);
    ground::apply_form(ground, form(FormKind::mound));
    const double error = std::abs(volume(ground) - exact);
    EXPECT_LT(error, 0.1 * cell * cell);
    if (last > 0.0) {
      EXPECT_LT(error, last / 3.0) << cell;
    }
    last = error;
  }
}

TEST(Forms, MoundIsHighestInItsMiddleAndSteepestHalfWay) {
  Heightfield ground = level(0.02);
  GroundForm mound = form(FormKind::mound);
  mound.at = {5, 5};
  ground::apply_form(ground, mound);
  EXPECT_NEAR(geom::height_at(ground, {5, 5}), 0.9, 1e-12);
  EXPECT_NEAR(geom::height_at(ground, {5 + 1.25, 5}), 0.45, 1e-3);
  EXPECT_NEAR(geom::height_at(ground, {5, 7.6}), 0.0, 1e-12);
  EXPECT_NEAR(geom::slope_at(ground, {6.25, 5.005}), std::atan(kPi * 0.9 / 5.0), 2e-3);
}

TEST(Forms, HollowIsTheMoundTurnedOver) {
  Heightfield up = level(0.1);
  Heightfield down = level(0.1);
  ground::apply_form(up, form(FormKind::mound));
  ground::apply_form(down, form(FormKind::hollow));
  for (std::size_t k = 0; k < up.z.size(); ++k) EXPECT_EQ(up.z[k], -down.z[k]);
}

// A straight ridge: length · h r across it (∫ of a raised cosine over −r..r), and half a mound at
// either end.
TEST(Forms, RidgeIsAMoundDrawnAlongItsPath) {
  Heightfield ground = level(0.05);
  GroundForm ridge = form(FormKind::ridge);
  ridge.path = {{3, 5}, {7, 5}};
  ridge.radius = 1.5;
  ground::apply_form(ground, ridge);
  const double mound = kPi * 1.5 * 1.5 * 0.9 * (1.0 - 4.0 / (kPi * kPi)) / 2.0;
  EXPECT_NEAR(volume(ground), 4.0 * 0.9 * 1.5 + mound, 1e-3);
}

TEST(Forms, RidgeDoesNotPileUpAtItsBends) {
  Heightfield ground = level(0.1);
  GroundForm ridge = form(FormKind::ridge);
  ridge.path = {{3, 3}, {5, 5}, {7, 3}};
  ground::apply_form(ground, ridge);
  EXPECT_NEAR(*std::max_element(ground.z.begin(), ground.z.end()), 0.9, 1e-9);
}

TEST(Forms, BenchIsLevelInsideAndBlendsOverItsBatter) {
  Heightfield ground = level(0.1);
  GroundForm bench = form(FormKind::bench);
  bench.outline = {{3, 3}, {7, 3}, {7, 7}, {3, 7}};
  bench.level = 0.6;
  bench.batter = 1.0;
  ground::apply_form(ground, bench);
  EXPECT_NEAR(geom::height_at(ground, {5, 5}), 0.6, 1e-12);
  EXPECT_NEAR(geom::height_at(ground, {3, 6.95}), 0.6, 1e-9);
  EXPECT_NEAR(geom::height_at(ground, {2.5, 5}), 0.3, 1e-9);
  EXPECT_NEAR(geom::height_at(ground, {2.0, 5}), 0.0, 1e-9);
  // Square of 4 m, four prisms of 1 × 4 / 2, and corners: quarter cones of 1 m (their sum one
  // cone).
  EXPECT_NEAR(volume(ground), 0.6 * (16.0 + 4 * 2.0 + kPi / 3.0), 5e-3);
}

TEST(Forms, SlopeFallsAtItsAngleTheWayItSays) {
  Heightfield ground = level(0.25);
  GroundForm slope = form(FormKind::slope);
  slope.at = {2, 2};
  slope.angle = 12 * kDegree;
  slope.downhill = 60 * kDegree;  // clockwise from +y
  ground::apply_form(ground, slope);
  const Vec2 down{std::sin(60 * kDegree), std::cos(60 * kDegree)};
  EXPECT_NEAR(geom::height_at(ground, {2, 2}), 0.0, 1e-12);
  EXPECT_NEAR(geom::height_at(ground, Vec2{2, 2} + down * 3.0), -3.0 * std::tan(12 * kDegree),
              1e-12);
  EXPECT_NEAR(geom::slope_at(ground, {8.1, 3.3}), 12 * kDegree, 1e-12);
}

TEST(Forms, SmoothLeavesAPlaneAloneAndKeepsTheVolumeOfABump) {
  Heightfield plane = level(0.1);
  GroundForm slope = form(FormKind::slope);
  slope.angle = 0.3;
  slope.downhill = 1.0;
  ground::apply_form(plane, slope);
  const Heightfield before = plane;
  GroundForm smooth = form(FormKind::smooth);
  smooth.radius = 0.8;
  ground::apply_form(plane, smooth);
  for (std::size_t k = 0; k < plane.z.size(); ++k) EXPECT_NEAR(plane.z[k], before.z[k], 1e-11);

  Heightfield bump = level(0.1);
  GroundForm mound = form(FormKind::mound);
  ground::apply_form(bump, mound);
  const double whole = volume(bump);
  ground::apply_form(bump, smooth);
  EXPECT_NEAR(volume(bump), whole, 1e-9);
  EXPECT_LT(*std::max_element(bump.z.begin(), bump.z.end()), 0.87);
}

TEST(Forms, SmoothIsTheMeanOverTheDisc) {
  Heightfield ground = level(0.5);
  for (int j = 0; j < ground.grid.ny; ++j) {
    for (int i = 0; i < ground.grid.nx; ++i) ground.at(i, j) = std::sin(i * 1.7) + j * j * 0.01;
  }
  const Heightfield before = ground;
  GroundForm smooth = form(FormKind::smooth);
  smooth.radius = 1.2;
  ground::apply_form(ground, smooth);
  double sum = 0.0;
  int count = 0;
  for (int j = 0; j < ground.grid.ny; ++j) {
    for (int i = 0; i < ground.grid.nx; ++i) {
      if (geom::distance(ground.grid.node(i, j), ground.grid.node(9, 11)) > 1.2) continue;
      sum += before.at(i, j);
      ++count;
    }
  }
  EXPECT_NEAR(ground.at(9, 11), sum / count, 1e-12);
}

TEST(Forms, AreAppliedInTheOrderTheyAreWritten) {
  GroundForm mound = form(FormKind::mound);
  GroundForm bench = form(FormKind::bench);
  bench.outline = {{4, 4}, {6, 4}, {6, 6}, {4, 6}};
  bench.level = 0.2;
  Site site = test::yard(10, 10, 2.0);
  site.ground.forms = {mound, bench};
  EXPECT_NEAR(geom::height_at(test::built(site).ground, {5, 5}), 0.2, 1e-12);
  site.ground.forms = {bench, mound};
  EXPECT_GT(geom::height_at(test::built(site).ground, {5, 5}), 1.0);
}

TEST(Basins, AreDugToTheirDepthBelowTheLowestRim) {
  Site site = test::yard(10, 10, 2.0);
  site.ground.cell = 0.05;
  Water water;
  water.name = "pool";
  water.outline = {{3, 3}, {7, 3}, {7, 7}, {3, 7}};
  water.depth = 0.4;
  water.side_slope = 45 * kDegree;
  site.waters.push_back(water);
  const Model model = test::built(site);
  EXPECT_NEAR(geom::height_at(model.ground, {5, 5}), -0.4, 1e-12);
  EXPECT_NEAR(geom::height_at(model.ground, {3.2, 5}), -0.2, 1e-9);
  EXPECT_NEAR(geom::height_at(model.ground, {2.9, 5}), 0.0, 1e-12);
  EXPECT_NEAR(geom::height_at(model.surveyed, {5, 5}), 0.0, 1e-12);
  // Frustum of a pyramid: h/3 (A + a + √(Aa)) with A = 16, a = 3.2².
  const double frustum = 0.4 / 3.0 * (16.0 + 3.2 * 3.2 + 4.0 * 3.2);
  EXPECT_NEAR(-geom::surface_sums(model.ground, model.outline, 0.0).volume_above_m3, frustum, 5e-3);
  const Part& sheet = test::part(model, PartKind::water, "pool");
  EXPECT_NEAR(bounds(sheet.mesh).lo.z, 0.0, 1e-12);
  EXPECT_NEAR(geom::surface_area(sheet.mesh), 16.0, 1e-12);
  EXPECT_EQ(model.site.waters[0].level, 0.0);
}

TEST(Basins, OnASlopeFillToTheLowestRim) {
  Site site = test::yard(10, 10, 2.0);
  test::add_slope(site, {0, 0}, 5 * kDegree, 90 * kDegree);
  Water water;
  water.name = "pool";
  water.outline = {{3, 3}, {7, 3}, {7, 7}, {3, 7}};
  water.depth = 0.5;
  site.waters.push_back(water);
  const Model model = test::built(site);
  const double rim = -7.0 * std::tan(5 * kDegree);
  EXPECT_NEAR(bounds(test::part(model, PartKind::water, "pool").mesh).hi.z, rim, 1e-9);
  EXPECT_NEAR(geom::height_at(model.ground, {5, 5}), rim - 0.5, 1e-9);
}

TEST(Allowances, SnowRaisesTheGroundButNotTheFence) {
  Site site = test::yard(10, 10, 2.0);
  BuildOptions winter;
  winter.snow = 0.3;
  const Model model = test::built(site, winter);
  EXPECT_NEAR(geom::height_at(model.ground, {5, 5}), 0.3, 1e-12);
  EXPECT_NEAR(geom::height_at(model.surveyed, {5, 5}), 0.0, 1e-12);
  for (const Panel& p : model.panels) {
    EXPECT_NEAR(p.top_a, 2.0, 1e-12);
    EXPECT_NEAR(p.foot_a, 0.0, 1e-12);
    EXPECT_NEAR(p.ground_a, 0.3, 1e-12);
  }
}

TEST(Allowances, ScourLowersTheGroundWithinAMetreOfTheFence) {
  Site site = test::yard(10, 10, 2.0);
  BuildOptions worn;
  worn.scour = 0.1;
  const Model model = test::built(site, worn);
  EXPECT_NEAR(geom::height_at(model.ground, {0.5, 5}), -0.1, 1e-12);
  EXPECT_NEAR(geom::height_at(model.ground, {-0.5, 5}), -0.1, 1e-12);
  EXPECT_NEAR(geom::height_at(model.ground, {2.0, 5}), 0.0, 1e-12);
  EXPECT_NEAR(model.panels[0].ground_a, -0.1, 1e-12);
  EXPECT_NEAR(model.panels[0].foot_a, 0.0, 1e-12);
}

}  // namespace
}  // namespace hummock

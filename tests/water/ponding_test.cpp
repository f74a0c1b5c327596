#include <gtest/gtest.h>

#include <cmath>

#include "engine/water/water.h"
#include "tests/support/surfaces.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

GroundForm hollow(Vec2 at, double radius, double depth) {
  GroundForm f;
  f.kind = FormKind::hollow;
  f.at = at;
  f.radius = radius;
  f.height = depth;
  return f;
}

TEST(Ponding, ARaisedCosineHollowFillsToItsClosedForm) {
  Site site = test::yard(10, 8, 2.0);
  site.ground.cell = 0.05;
  site.ground.forms = {hollow({4, 4}, 2.0, 0.3)};
  const water::Result r = water::analyse(test::built(site));
  const double exact = 0.3 * 4.0 * (geom::kPi / 2.0 - 2.0 / geom::kPi);
  ASSERT_EQ(r.ponds.size(), 1U);
  EXPECT_NEAR(r.ponding_m, 0.3, 1e-9);
  EXPECT_NEAR(r.ponding_volume_m3, exact, 1e-3 * exact);
  EXPECT_NEAR(r.ponds[0].at.x, 4.0, 0.05);
  EXPECT_NEAR(r.pond_depth.at(120, 120), 0.3, 1e-6);  // node (4, 4): 2 m margin, 0.05 m cells
  EXPECT_FALSE(r.ponds[0].drained);
}

TEST(Ponding, AHollowOutsideTheBoundaryIsNobodysPond) {
  Site site = test::yard(10, 8, 2.0);
  site.ground.margin = 5.0;
  site.ground.forms = {hollow({-2.5, 4}, 2.0, 0.3)};
  const water::Result r = water::analyse(test::built(site));
  EXPECT_TRUE(r.ponds.empty());
  EXPECT_EQ(r.ponding_volume_m3, 0.0);
}

// Ground falling 5 % to the south; the fence's south edge at y = 0, all of one kind.
Site falling(SheetKind kind) {
  Site site = test::yard(10, 8, 2.0, kind);
  test::add_slope(site, {0, 0}, std::atan(0.05), geom::kPi);
  return site;
}

TEST(Ponding, MeshLetsRainThroughAndASolidWallHoldsIt) {
  EXPECT_EQ(water::analyse(test::built(falling(SheetKind::mesh))).ponding_m, 0.0);
  const water::Result r = water::analyse(test::built(falling(SheetKind::solid)));
  // A closed tub: it runs over the lowest top. At the south wall's foot the wall's own height.
  EXPECT_NEAR(r.ponding_m, 2.0, 0.02);
  ASSERT_FALSE(r.ponds.empty());
  EXPECT_NEAR(r.ponds[0].at.y, 0.0, 0.11);
}

TEST(Ponding, ADrainLowersTheWaterToItsSillAndOneOnTheGroundEmptiesIt) {
  Site site = falling(SheetKind::solid);
  Drain drain;
  drain.name = "drain";
  drain.edge = 0;
  drain.from = 4.0;
  drain.width = 0.2;
  drain.sill = 0.15;
  site.boundary.drains = {drain};
  const water::Result sill = water::analyse(test::built(site));
  EXPECT_NEAR(sill.ponding_m, 0.15, 0.01);
  // Level 0.15 over a plane of 5 %: 3 m wide, 10 m long wedge.
  EXPECT_NEAR(sill.ponding_volume_m3, 0.15 * 3.0 / 2.0 * 10.0, 0.15);
  site.boundary.drains[0].sill = 0.0;
  const water::Result open = water::analyse(test::built(site));
  EXPECT_LT(open.ponding_m, 0.01);
  bool would = false;
  for (const water::Pond& p : open.ponds) would = would || (p.drained && p.depth_m > 1.9);
  EXPECT_TRUE(would);
}

TEST(Ponding, AGapUnderAGateOrAnOpenJointLetsItOut) {
  Site site = falling(SheetKind::solid);
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.under_gap = 0.0;
  EXPECT_GT(water::analyse(test::built(site)).ponding_m, 1.9);
  site.boundary.gates[0].under_gap = 0.02;
  EXPECT_LT(water::analyse(test::built(site)).ponding_m, 0.02);
  Site jointed = falling(SheetKind::solid);
  jointed.boundary.sections[0].joint_gap = 0.008;
  EXPECT_LT(water::analyse(test::built(jointed)).ponding_m, 0.02);
}

TEST(Ponding, DrawnWaterIsNoRainPondAndItsDrainKeepsItThere) {
  Site site = test::yard(10, 8, 2.0);
  Water pool;
  pool.name = "pool";
  pool.outline = tests::rectangle(3, 2, 7, 5);
  pool.depth = 0.4;
  site.waters.push_back(pool);
  const water::Result brimful = water::analyse(test::built(site));
  EXPECT_NEAR(brimful.ponding_m, 0.0, 1e-9);
  EXPECT_NEAR(brimful.deepest_m, 0.4, 1e-9);
  // Drawn lower than its rim in a hollow: rain raises it over the outline unless it is drained.
  Site low = test::yard(10, 8, 2.0);
  low.ground.forms = {hollow({5, 4}, 3.0, 0.5)};
  Water mere = pool;
  mere.depth.reset();
  mere.level = -0.4;
  mere.outline = tests::regular_polygon({5, 4}, 1.0, 24);
  low.waters = {mere};
  EXPECT_GT(water::analyse(test::built(low)).ponding_m, 0.3);
  low.waters[0].drain = true;
  EXPECT_LT(water::analyse(test::built(low)).ponding_m, 1e-6);
}

TEST(Ponding, TheDrawnDirectionOfTheOutlineDoesNotMatter) {
  Site site = falling(SheetKind::solid);
  Drain drain;
  drain.name = "drain";
  drain.edge = 0;
  drain.from = 1.0;
  drain.sill = 0.1;
  site.boundary.drains = {drain};
  const double one = water::analyse(test::built(site)).ponding_m;
  std::reverse(site.boundary.outline.begin(), site.boundary.outline.end());
  site.boundary.drains[0].edge = 2;  // the south edge, now running west
  site.boundary.drains[0].from = 8.9;
  const double other = water::analyse(test::built(site)).ponding_m;
  EXPECT_NEAR(one, other, 1e-6);
  EXPECT_NEAR(one, 0.1, 0.01);
}

}  // namespace
}  // namespace hummock

// What a fence is made of by height, and an overhang's curve, as the leaping animal meets them.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/leap/leap.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

template <class T>
Sourced<T> made_up(T value) {
  Sourced<T> row;
  row.value = value;
  row.source = "made_up for the test";
  return row;
}

// Climbs mesh, leaps 1.0 m, reaches `reach` from a hold; from a hold it does not leap.
Site climbers_yard(double height, double reach) {
  Site site = test::yard(4, 4, height);
  site.species = test::test_animal(1.0, 2.0);
  site.species.climbs.value = {"mesh"};
  site.species.reach = made_up(reach);
  site.species.climbs_past_upright = made_up(30.0 * geom::kDegree);
  return site;
}

double lower(const Site& site) {
  const Result r = analyse(test::built(site));
  return r.escape_leap_m.value_or(r.bounded_below_m);
}

TEST(FenceMake, ACapHoldsWhatDoesNotReachOverIt) {
  Site site = climbers_yard(1.6, 0.3);
  EXPECT_LT(lower(site), 0.01);
  site.boundary.sections[0].cap = 0.25;
  EXPECT_LT(lower(site), 0.01);
  site.boundary.sections[0].cap = 0.45;
  EXPECT_NEAR(lower(site), 1.6, 0.02);  // from the ground, past mesh and cap
}

TEST(FenceMake, ASmoothBandAtTheFootIsLeaptOver) {
  Site site = climbers_yard(1.6, 0.0);
  Band foot;
  foot.to = 0.6;
  site.boundary.sections[0].bands = {foot};
  EXPECT_NEAR(lower(site), 0.6, 0.03);  // to the mesh above it, and up
  site.boundary.sections[0].bands[0].surface = "wood";
  EXPECT_NEAR(lower(site), 0.6, 0.03);
  site.species.climbs.value = {"mesh", "wood"};
  EXPECT_LT(lower(site), 0.01);
}

// The quarter circle of 0.6 m has R = 0.382 m. With 30° past upright it is climbed over the first
// 0.2 m, to (0.051, 0.191); from there the tip at (0.382, 0.382) is 0.382 m off.
TEST(FenceMake, ACurvedOverhangIsClimbedAsFarAsItIsSteep) {
  for (const auto& [reach, out] : {std::pair{0.30, false}, std::pair{0.45, true}}) {
    Site site = climbers_yard(1.6, reach);
    site.boundary.sections[0].overhang = {0.6, 0.0, Profile::curved, std::nullopt};
    if (out) {
      EXPECT_LT(lower(site), 0.01);
    } else {
      EXPECT_NEAR(lower(site), 1.6 + 0.382, 0.03);
    }
  }
}

// The straight one of the same length and angle is flat all the way: nothing of it is climbed.
TEST(FenceMake, ACurvedOverhangIsNotTheStraightOneOfItsMeasures) {
  Site site = climbers_yard(1.6, 0.45);
  site.boundary.sections[0].overhang = {0.6, 0.0, Profile::straight, std::nullopt};
  EXPECT_NEAR(lower(site), 1.6, 0.03);
}

TEST(FenceMake, ASmoothOverhangIsNotClimbedWhateverItsAngle) {
  Site site = climbers_yard(1.6, 0.1);
  site.boundary.sections[0].overhang = {0.4, 80.0 * geom::kDegree, Profile::straight, std::nullopt};
  EXPECT_LT(lower(site), 0.01);
  site.boundary.sections[0].overhang->kind = SheetKind::solid;
  EXPECT_GT(lower(site), 1.9);
}

TEST(FenceMake, AHotWireIsNeverCredited) {
  Site site = climbers_yard(1.6, 0.0);
  site.boundary.sections[0].hot_wire = true;
  EXPECT_LT(lower(site), 0.01);
}

}  // namespace
}  // namespace hummock::leap

// What a fence is made of by height, an overhang's curve, and what lies on a face that is climbed,
// as the leaping animal meets them.
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

// Boxes of 0.3 m all round before the mesh, `gap` from it, from `foot` to `top`.
Site lined(double gap, double foot, double top, double reach) {
  Site site = climbers_yard(2.5, reach);
  site.species.least_opening.value = 0.05;
  site.species.crouch = made_up(0.2);
  const double d = gap + 0.15;
  for (const Vec2 at : {Vec2{2, d}, Vec2{2, 4 - d}})
    test::add_box(site, "y" + std::to_string(at.y), at, {4.0, 0.3, top - foot}).z = foot;
  for (const Vec2 at : {Vec2{d, 2}, Vec2{4 - d, 2}})
    test::add_box(site, "x" + std::to_string(at.x), at, {0.3, 4.0, top - foot}).z = foot;
  for (Object& box : site.objects) box.surface = "smooth";
  return site;
}

// Behind them it climbs only where it gets in between: its head passes 0.05 m.
TEST(Holds, WhatIsCoveredIsNotClimbed) {
  EXPECT_NEAR(lower(lined(0.0, 0.0, 0.9, 0.0)), 0.9, 0.02);  // the mesh is free from 0.9 m on
  EXPECT_NEAR(lower(lined(0.03, 0.0, 0.9, 0.0)), 0.9, 0.02);
  Site open = lined(0.0, 0.0, 0.9, 0.0);
  open.objects.pop_back();
  EXPECT_LT(lower(open), 0.01);
}

// A band round the fence parts the mesh below it from that above, unless it reaches past.
TEST(Holds, ABandPartsAFaceUnlessItReachesPast) {
  EXPECT_NEAR(lower(lined(0.0, 0.5, 0.9, 0.0)), 0.9, 0.03);
  EXPECT_NEAR(lower(lined(0.0, 0.5, 0.9, 0.3)), 0.9, 0.03);
  EXPECT_LT(lower(lined(0.0, 0.5, 0.9, 0.45)), 0.01);
}

// Round a post set against it a face is climbed.
TEST(Holds, APostDoesNotPartAFence) {
  Site site = climbers_yard(2.5, 0.0);
  site.boundary.sections[0].panel = 1.0;
  EXPECT_LT(lower(site), 0.01);
}

// A wall of wood 2.5 m high parts the yard, its ends on the fence or `short_by` before it; on it a
// slab that stands out by `lip` on either side. Out is over the low north fence, behind it.
Site lipped(double thick, double lip, double short_by, double reach) {
  Site site = test::yard(4, 6, 5.0, SheetKind::solid);
  test::split_sections(site);
  for (Section& s : site.boundary.sections) s.surface = "smooth";
  site.boundary.sections[2].height = 0.6;
  site.species = test::test_animal(1.0, 2.0);
  site.species.climbs.value = {"wood"};
  site.species.reach = made_up(reach);
  site.species.climbs_past_upright = made_up(5.0 * geom::kDegree);
  site.leap_start = Vec2{1.0, 1.0};
  test::add_box(site, "wall", {2, 3}, {4.0 - 2.0 * short_by, thick, 2.5}).surface = "wood";
  Object& slab = test::add_box(site, "slab", {2, 3}, {4.0, thick + 2.0 * lip, 0.1});
  slab.surface = "smooth";
  slab.z = 2.5;
  return site;
}

TEST(Holds, AWallUnderALipIsNotClimbedThrough) {
  EXPECT_GT(lower(lipped(0.3, 0.35, 0.0, 0.0)), 1.9);
  EXPECT_GT(lower(lipped(0.3, 0.35, 0.0, 0.3)), 1.9);   // as far as it is thick
  EXPECT_GT(lower(lipped(0.3, 0.35, -0.2, 0.0)), 1.9);  // its ends beyond the fence
}

TEST(Holds, AWallIsClimbedWhereTheLipIsReachedPastOrTheEndIsFree) {
  EXPECT_NEAR(lower(lipped(0.3, 0.35, 0.0, 0.5)), 0.6, 0.02);
  EXPECT_NEAR(lower(lipped(0.3, 0.35, 0.2, 0.0)), 0.6, 0.02);
  EXPECT_NEAR(lower(lipped(0.3, -0.1, 0.0, 0.0)), 0.6, 0.02);  // its top is free beside the slab
}

}  // namespace
}  // namespace hummock::leap

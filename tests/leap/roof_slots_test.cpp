// Beside a roof's rim: what is too narrow to leave by, what is not, and a roof that is a shelter.
// Closed forms: e(0, z) = z from the ground; between two straight edges no ball is wider than the
// gap, in a square corner of a gap g the ball is 2 g / (1 + sin 45 degrees) = 1.17 g.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

// A solid fence of 0.9 m and a roof level with its tops, `gap` inside it; the animal leaps 1.0 m
// and its head passes 0.05 m.
Site roofed(double gap, double roof_height = 0.9) {
  Site site = test::yard(6, 5, 0.9, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  site.species.least_opening.value = 0.05;
  site.roof = Roof{};
  site.roof->kind = SheetKind::solid;
  site.roof->height = roof_height;
  site.roof->outline = Polygon{{gap, gap}, {6 - gap, gap}, {6 - gap, 5 - gap}, {gap, 5 - gap}};
  return site;
}

Result answer(const Site& site) {
  Settings settings;
  settings.remedies = false;
  return analyse(test::built(site), settings);
}

TEST(RoofSlots, ASlotOfThreeCentimetresIsNoWayOut) {
  EXPECT_FALSE(answer(roofed(0.03)).escape_leap_m.has_value());
}

TEST(RoofSlots, TheCornerOfANarrowSlotPassesMore) {
  const Result found = answer(roofed(0.045));  // 0.0527 m at the corners
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_NEAR(*found.escape_leap_m, 0.9, 0.02);
}

TEST(RoofSlots, AWideSlotIsAWayOut) {
  const Result found = answer(roofed(0.06));
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_NEAR(*found.escape_leap_m, 0.9, 0.02);
}

TEST(RoofSlots, ASlotIsMeasuredAcrossAndUp) {
  EXPECT_TRUE(answer(roofed(0.03, 0.97)).escape_leap_m.has_value());  // (0.03² + 0.07²)^½ = 0.076
}

TEST(RoofSlots, TheCarefulHeadPassesANarrowerOne) {
  Site site = roofed(0.03);
  site.species.least_opening.careful = 0.02;
  EXPECT_TRUE(answer(site).escape_leap_m.has_value());
}

// A roof in the yard, `aside` from a fence of 3 m: from its top e(1, 2.1) = (2.1 + 5.41^½) / 2.
Site sheltered(double aside) {
  Site site = test::yard(6, 5, 3.0, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::solid;
  site.roof->height = 0.9;
  site.roof->outline = Polygon{{aside, aside}, {4, aside}, {4, 3.5}, {aside, 3.5}};
  return site;
}

TEST(Shelter, OnTopOfALowRoofItStillStandsInside) {
  Settings settings;
  settings.remedies = false;
  settings.search_limit = 2.6;
  const Result found = analyse(test::built(sheltered(1.0)), settings);
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_NEAR(*found.escape_leap_m, 0.5 * (2.1 + std::sqrt(2.1 * 2.1 + 1.0)), 0.05);
}

TEST(Shelter, AStepBesideTheFenceIsFoundFromItsTop) {
  Site site = sheltered(0.4);
  site.boundary.sections[0].height = 1.7;  // e(0.4, 0.8) = 0.847 from the roof, 0.9 on to it
  const Result found = answer(site);
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_NEAR(*found.escape_leap_m, 0.9, 0.03);
  EXPECT_EQ(found.how, "over the barrier's top");
}

TEST(Shelter, AtTheFenceARoofIsPartOfTheBarrier) {
  const Result found = answer(sheltered(0.0));
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_EQ(found.how, "through an opening in the roof");
}

TEST(NarrowCrest, APlateIsNoPlaceForWhatNeedsAPerch) {
  for (const double perch : {0.0, 0.3}) {
    Site site = test::yard(6, 5, 1.7, SheetKind::solid);
    site.species = test::test_animal(1.0, 2.0);
    site.species.perch = site.species.leap_height;
    site.species.perch->value = perch;
    test::add_box(site, "plate", {3, 0.46}, {1, 0.01, 0.9});
    const Result found = answer(site);
    ASSERT_TRUE(found.escape_leap_m.has_value());
    EXPECT_NEAR(*found.escape_leap_m, perch > 0.0 ? 1.7 : 0.9, 0.05) << perch;
  }
}

// A rail of 1.5 m beside a fence of 2.2 m, before it a block of 0.8 m; perch 0.13 m. Where the rail
// is no place it is e(0.35, 1.4) = 1.42 from the block.
TEST(NarrowCrest, AFencesSheetDoesNotWidenARailBesideIt) {
  struct Rail {
    double wide, aside, truth;
  };
  const double from_block = effort(0.35, 1.4, 1.0);
  for (const Rail& rail : {Rail{0.10, 0.0, from_block}, Rail{0.10, 0.04, from_block},
                           Rail{0.12, 0.0, from_block}, Rail{0.14, 0.0, 0.8}}) {
    Site site = test::yard(4, 5, 2.2, SheetKind::solid);
    site.species = test::test_animal(1.0, 2.0);
    site.species.perch = site.species.leap_height;
    site.species.perch->value = 0.13;
    test::add_box(site, "rail", {2, rail.aside + 0.5 * rail.wide}, {2, rail.wide, 1.5});
    test::add_box(site, "block", {2, 0.6}, {1, 0.5, 0.8});
    const Result found = answer(site);
    ASSERT_TRUE(found.escape_leap_m.has_value());
    EXPECT_NEAR(*found.escape_leap_m, rail.truth, 0.03) << rail.wide << " " << rail.aside;
  }
}

TEST(NarrowCrest, SlatsSideBySideAreATop) {
  Site site = test::yard(6, 5, 1.7, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  site.species.perch = site.species.leap_height;
  site.species.perch->value = 0.3;
  for (int k = 0; k < 6; ++k) {
    test::add_box(site, "slat " + std::to_string(k), {3, 0.3 + 0.08 * k}, {1, 0.04, 0.9});
  }
  const Result found = answer(site);
  ASSERT_TRUE(found.escape_leap_m.has_value());
  EXPECT_NEAR(*found.escape_leap_m, 0.9, 0.05);
}

}  // namespace
}  // namespace hummock::leap

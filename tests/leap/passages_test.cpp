// Houses as passages: in by one way, out by another.
#include <gtest/gtest.h>

#include "engine/leap/leap.h"
#include "engine/leap/passages/through_houses.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// 8 × 8 m; a house from fence to fence, 4 m deep so that nothing leaps round it; the animal (0.7 m
// up, 1.4 m far) starts south of it, where the fence is 3 m high; north of it it is 0.5 m high.
Site yard() {
  Site site = test::yard(8.0, 8.0, 3.0, SheetKind::solid);
  test::split_sections(site);
  site.boundary.sections[2].height = 0.5;
  site.leap_start = Vec2{1.0, 1.0};
  House& house = test::add_hut(site, {{0.0, 2.0}, {8.0, 2.0}, {8.0, 6.0}, {0.0, 6.0}}, 3.5);
  house.door = WallOpening{"door", 0, 3.0, 0.5, 0.5, 0.0, 0.0};
  house.vents = {WallOpening{"hatch", 2, 3.0, 0.5, 0.5, 0.0, 0.0}};
  return site;
}

leap::Result leap_of(const Site& site) {
  leap::Settings settings;
  settings.remedies = false;
  return leap::analyse(test::built(site), settings);
}

std::size_t passages(const Site& site) {
  const Model model = test::built(site);
  return leap::through_houses(model, leap::place_rules(model.site.species, 0.05, false)).size();
}

TEST(Passages, AHouseWithTwoOpenWaysIsWalkedThrough) {
  const leap::Result r = leap_of(yard());
  ASSERT_TRUE(r.escape_leap_m);
  EXPECT_NEAR(*r.escape_leap_m, 0.5, 0.01);
  EXPECT_TRUE(std::any_of(r.route.begin(), r.route.end(),
                          [](const leap::Step& s) { return s.to_thing == "the way through hut"; }));
}

TEST(Passages, AHouseWithOneOpenWayIsNot) {
  Site grille = yard();
  grille.houses[0].vents[0].aperture = 0.01;
  Site one = yard();
  one.houses[0].vents.clear();
  for (const Site& site : {grille, one}) {
    EXPECT_GT(leap_of(site).margin, 1.5);
    EXPECT_EQ(passages(site), 0u);
  }
}

// A wall that ends at the middle of a wide door: in before it, out behind it.
TEST(Passages, AWideDoorIsOneRoundTheEndOfAWall) {
  Site site = yard();
  site.houses[0].outline = {{5.0, 2.0}, {8.0, 2.0}, {8.0, 6.0}, {5.0, 6.0}};
  site.houses[0].door = WallOpening{"door", 3, 1.0, 2.0, 0.6, 0.0, 0.0};
  site.houses[0].vents.clear();
  EXPECT_EQ(passages(site), 0u);
  test::add_box(site, "wall", {2.4, 4.0}, {5.2, 0.01, 2.5});
  EXPECT_EQ(passages(site), 1u);
  site.houses[0].door->width = 0.8;  // all of it before the wall
  EXPECT_EQ(passages(site), 0u);
}

// A stone before the hatch leaves 0.2 m of it.
TEST(Passages, AThingBeforeAWayShutsOnlyWhatItCovers) {
  Site site = yard();
  Object& stone = test::add_box(site, "stone", {4.75, 6.25}, {1.0, 0.5, 0.3});
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.5, 0.01);
  stone.size.z = 0.6;
  EXPECT_GT(leap_of(site).margin, 1.5);
}

// The door's sill of 0.6 m costs that, the hatch's too where it is higher than the floor: 0.65 m
// above a floor at the ground, 0.05 m above one at the door's sill.
TEST(Passages, ASillIsLeaptToFromWithinToo) {
  Site site = yard();
  site.houses[0].door->sill = 0.6;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.6, 0.01);
  site.houses[0].vents[0].sill = 0.65;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.6, 0.01);
  site.houses[0].door->sill = 0.0;  // down to the ground again, and over the fence from there
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.65, 0.01);
  site.houses[0].vents[0].sill = 2.0;  // it leaps 0.7 m
  EXPECT_GT(leap_of(site).margin, 1.5);
}

// Grip is taken off, reach needs no leap, and on what is said to stand inside it climbs.
TEST(Passages, WithinItGripsReachesAndClimbsOnWhatIsSaidToStandThere) {
  Site site = yard();
  site.houses[0].vents[0].sill = 0.9;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.9, 0.01);
  site.species.grip.value = 0.3;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.6, 0.01);
  site.species.grip.value = 0.0;
  site.houses[0].climb_places = 1;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.5, 0.01);
  site.houses[0].climb_places = 0;
  site.houses[0].hides = 1;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.5, 0.01);
  site.houses[0].hides = 0;
  site.species.reach->value = 1.0;  // over the fence too
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.0, 0.01);
}

// Across a house of 0.2 m from a sill of 0.6 m to one of 1.1 m: e(0.2, 0.5) = 0.52 m, after 0.6 m.
// From the floor it would be 1.1 m.
TEST(Passages, ASillIsAStepToAHigherOne) {
  Site site = yard();
  site.houses[0].outline = {{0.0, 2.0}, {8.0, 2.0}, {8.0, 2.2}, {0.0, 2.2}};
  site.houses[0].vents[0].sill = 1.1;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 1.1, 0.01);
  site.houses[0].vents.push_back(WallOpening{"step", 0, 4.5, 0.5, 0.06, 0.6, 0.0});
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.6, 0.01);
}

// A house through a roof at 2 m; its hatch opens above that. It comes up to it by a leap of 2.3 m,
// a place to climb, or not at all where no way leads in.
TEST(Passages, AHoleAboveTheRoofIsAWayOut) {
  Site site = test::yard(8.0, 8.0, 2.0, SheetKind::solid);
  site.species = test::test_animal(2.5, 5.0);
  site.roof = Roof{};
  site.roof->aperture = 0.02;
  site.roof->height = 2.0;
  House& house = test::add_hut(site, {{3.0, 3.0}, {5.0, 3.0}, {5.0, 5.0}, {3.0, 5.0}}, 3.2);
  house.door = WallOpening{"door", 0, 0.5, 0.5, 0.5, 0.0, 0.0};
  house.vents = {WallOpening{"hatch", 2, 0.5, 0.5, 0.5, 2.3, 0.0}};
  leap::Result r = leap_of(site);
  ASSERT_TRUE(r.escape_leap_m);
  EXPECT_NEAR(*r.escape_leap_m, 2.3, 0.01);
  EXPECT_TRUE(r.by_hole);
  site.houses[0].climb_places = 1;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.0, 0.01);
  site.houses[0].door.reset();
  EXPECT_FALSE(leap_of(site).escape_leap_m);
}

}  // namespace
}  // namespace hummock

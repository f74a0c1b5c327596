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

// The door's sill of 0.6 m costs that, the hatch's is climbed to from within.
TEST(Passages, ASillIsLeaptToFromTheYardAlone) {
  Site site = yard();
  site.houses[0].door->sill = 0.6;
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.6, 0.01);
  site.houses[0].door->sill = 0.0;
  site.houses[0].vents[0].sill = 1.0;  // down to the ground, and over from there
  EXPECT_NEAR(*leap_of(site).escape_leap_m, 0.5, 0.01);
}

}  // namespace
}  // namespace hummock

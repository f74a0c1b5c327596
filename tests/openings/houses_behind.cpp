// Holes of the fence before a house that stands against it, and vents above fence and roof.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

// 10 × 10 m, a hole of 0.5 × 0.5 m in the north fence at x 5 to 5.5, a house against it outside.
Site pop_hole(double gap = 0.0) {
  Site site = test::yard(10.0, 10.0, 3.0, SheetKind::solid);
  Drain hole;
  hole.name = "pop hole";
  hole.edge = 2;
  hole.from = 4.5;
  hole.width = hole.height = 0.5;
  site.boundary.drains = {hole};
  House& house = test::add_hut(site, {{4, 10 + gap}, {6, 10 + gap}, {6, 11.5}, {4, 11.5}}, 2.0);
  house.door = WallOpening{"door", 0, 1.0, 0.5, 0.5, 0.0, 0.0};
  return site;
}

double largest(const Site& site) {
  return analyse(test::built(site)).largest_m;
}

TEST(HousesBehind, AHoleIntoAClosedHouseIsNoWayOut) {
  EXPECT_EQ(largest(pop_hole()), 0.0);
  EXPECT_EQ(largest(pop_hole(0.01)), 0.0);          // the head needs 0.05 m
  EXPECT_NEAR(largest(pop_hole(0.06)), 0.5, 1e-9);  // it comes out between the two
  Site none = pop_hole();
  none.houses.clear();
  EXPECT_NEAR(largest(none), 0.5, 1e-9);
}

// What of it lies beside the house, or above its 2 m, leads out; so does the house's own vent.
TEST(HousesBehind, WhatLeadsOnIsOne) {
  Site site = pop_hole();
  site.boundary.drains[0].from = 3.7;  // x 5.8 to 6.3
  EXPECT_NEAR(largest(site), 0.3, 0.011);
  site = pop_hole();
  site.boundary.drains[0].sill = 1.8;
  EXPECT_NEAR(largest(site), 0.5, 1e-9);
  site = pop_hole();
  site.houses[0].vents = {WallOpening{"vent", 2, 0.5, 0.3, 0.3, 1.0, 0.0}};
  EXPECT_NEAR(largest(site), 0.3, 1e-9);
}

// A house in the yard, flush with the north fence of 3 m, its vent of 0.4 m looking over it.
TEST(HousesBehind, AVentIsShutByTheFenceBeforeItAndOpenAboveItsTop) {
  Site site = test::yard(10.0, 10.0, 3.0, SheetKind::solid);
  House& house = test::add_hut(site, {{4, 8}, {6, 8}, {6, 10}, {4, 10}}, 4.0);
  house.vents = {WallOpening{"vent", 2, 0.5, 0.4, 0.4, 1.0, 0.0}};
  EXPECT_EQ(largest(site), 0.0);
  site.houses[0].vents[0].sill = 2.9;
  EXPECT_NEAR(largest(site), 0.3, 1e-5);
  site.houses[0].vents[0].sill = 3.2;
  EXPECT_NEAR(largest(site), 0.4, 1e-9);
}

// A mesh roof at 3 m; the house rises through it.
TEST(HousesBehind, AVentAboveARoofThatClosesTheYardLeadsOut) {
  Site site = test::yard(10.0, 10.0, 3.0, SheetKind::solid);
  site.roof = Roof{};
  site.roof->height = 3.0;
  site.roof->aperture = 0.02;
  House& house = test::add_hut(site, {{4, 4}, {6, 4}, {6, 6}, {4, 6}}, 4.0);
  house.vents = {WallOpening{"vent", 2, 0.5, 0.4, 0.4, 3.3, 0.0}};
  EXPECT_NEAR(largest(site), 0.4, 1e-9);
  site.houses[0].vents[0].sill = 2.8;  // 0.2 m of it are above
  EXPECT_NEAR(largest(site), 0.2, 1e-5);
  site.houses[0].vents[0].sill = 2.0;
  EXPECT_NEAR(largest(site), 0.02, 1e-9);
}

}  // namespace
}  // namespace hummock::openings

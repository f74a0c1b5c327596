// What "no way out" rests on, on yards whose answer at the careful figures is known on paper.
#include "engine/leap/rows/rests_on.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

RestsOn rests_of(const Site& site, double asked = 1.0) {
  const Model model = test::built(site);
  Settings settings;
  settings.resolution = 0.1;
  settings.required_margin = asked;
  return what_it_rests_on(model, settings, analyse(model, settings));
}

// From level ground a plain wall needs its own height. The animal's 0.7 m is assumed, and half as
// much again is 1.05 m.
TEST(RestsOn, ALowWallRestsOnAnAssumedLeapAndBreaksAtItsOwnHeight) {
  const RestsOn rests = rests_of(test::yard(5, 4, 0.9, SheetKind::solid));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "leap_height");
  EXPECT_NEAR(std::stod(rests.list[0].breaking_value), 0.9, 0.01);
  EXPECT_EQ(rests.list[0].careful_value, "1.05 m");
  EXPECT_NE(rests.list[0].words.find("assumed"), std::string::npos) << rests.list[0].words;
  EXPECT_TRUE(rests.explored);
}

TEST(RestsOn, AWallAboveTheCarefulLeapRestsOnNothing) {
  const RestsOn rests = rests_of(test::yard(5, 4, 1.2, SheetKind::solid));
  EXPECT_TRUE(rests.list.empty());
  EXPECT_TRUE(rests.explored);
}

// The margin asked for is asked at the figures in use, at a careful end that there is no way out:
// 1.2 m are 1.71 times the leap used, 1.14 times the careful one of 1.05 m; 1.0 m are less than it.
TEST(RestsOn, AMarginThatIsAskedForIsNotAskedAtTheCarefulEnd) {
  EXPECT_TRUE(rests_of(test::yard(5, 4, 1.2, SheetKind::solid), 1.3).list.empty());
  EXPECT_EQ(rests_of(test::yard(5, 4, 1.0, SheetKind::solid), 1.3).list.size(), 1U);
}

TEST(RestsOn, AFigureThatATrialShowedIsNoAssumption) {
  Site site = test::yard(5, 4, 0.9, SheetKind::solid);
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "a trial";
  EXPECT_TRUE(rests_of(site).list.empty());
}

TEST(RestsOn, NothingThatIsAWayOutAlreadyIsMet) {
  EXPECT_TRUE(rests_of(test::yard(5, 4, 0.6, SheetKind::solid)).list.empty());
}

Site climber_under_an_overhang() {
  Site site = test::yard(5, 4, 2.4);
  site.boundary.sections[0].overhang = Overhang{0.9, 40.0 * geom::kDegree};
  site.species.climbs.value = {"mesh"};
  site.species.cling_leap.value = 0.3;
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "a trial";
  return site;
}

// A hedge 0.6 m tall before a wall of 0.9 m: from the ground the wall needs its height, from the
// hedge e(0.05, 0.3) = 0.302, the hedge itself 0.6. The animal leaps 0.5 m, as a trial showed; half
// as much again would be 0.75 m were it assumed.
Site hedge_before_a_wall() {
  Site site = test::yard(5, 4, 0.9, SheetKind::solid);
  site.species = test::test_animal(0.5, 1.0);
  Planting hedge;
  hedge.name = "hedge";
  hedge.outline = {{1, 0.05}, {4, 0.05}, {4, 0.6}, {1, 0.6}};
  hedge.height = 0.6;
  hedge.cover = 1.0;
  site.plantings.push_back(hedge);
  return site;
}

TEST(RestsOn, AHedgeThatMayBearTheAnimalBreaksItsLeapSoonerAndIsNamed) {
  const RestsOn rests = rests_of(hedge_before_a_wall());
  ASSERT_EQ(rests.list.size(), 1U);  // 0.75 m is not enough for the wall from the ground
  EXPECT_NE(rests.list[0].words.find("'hedge' does not bear it"), std::string::npos)
      << rests.list[0].words;
  EXPECT_TRUE(rests.explored);
}

// Into it as high as it leaps, and on from there: taller than its leap it is a step too.
TEST(RestsOn, AHedgeTallerThanItsLeapIsNamed) {
  Site site = hedge_before_a_wall();
  site.boundary.sections[0].height = 0.75;
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "seen by its keeper";
  site.species.leap_distance = site.species.leap_height;
  site.species.leap_distance.value = 1.0;
  const RestsOn rests = rests_of(site);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "plantings");
}

// So for a hedge that bears it: from its top (0.6 m, a leap of 1 m gains it) the wall of 1.75 m is
// e(0.05, 1.15) = 1.15 m up, short of 1.3 but no way out; and it is one with a leap of 1.2 m.
TEST(RestsOn, NorWithAHedgeThatBearsIt) {
  Site site = hedge_before_a_wall();
  site.boundary.sections[0].height = 1.75;
  site.species = test::test_animal(1.0, 2.0);
  site.species.leap_height.evidence = site.species.leap_distance.evidence = "trial";
  site.species.leap_height.source = site.species.leap_distance.source = "a trial";
  EXPECT_TRUE(rests_of(site, 1.3).list.empty());
  site.species.leap_height.value = 1.2;
  site.species.leap_distance.value = 2.4;
  const RestsOn rests = rests_of(site, 1.3);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "plantings");
}

TEST(RestsOn, ANumberThatBreaksAloneIsToldWithWhereItBreaksBesideAHedge) {
  Site site = hedge_before_a_wall();
  site.boundary.sections[0].height = 0.7;
  site.plantings[0].height = 0.15;
  site.species.crouch->value = 0.1;
  const RestsOn rests = rests_of(site);
  ASSERT_EQ(rests.list.size(), 2U);
  EXPECT_NEAR(std::stod(rests.list[0].breaking_value), 0.70, 0.011);
  // From the hedge with 0.55 m; told to a sixteenth of the span of 0.25 m, on the side that holds.
  EXPECT_LE(std::stod(rests.list[1].breaking_value), 0.55);
  EXPECT_GE(std::stod(rests.list[1].breaking_value), 0.55 - 0.25 / 16 - 0.011);
  EXPECT_EQ(rests.list[1].key, "plantings+leap_height");
}

TEST(RestsOn, AHedgeTooLowToBeAStepIsNotNamed) {
  Site site = hedge_before_a_wall();
  site.plantings[0].height = 0.02;
  EXPECT_TRUE(rests_of(site).list.empty());
}

// It rests on that exactly when the leap engine, told that it hangs, finds the way out.
TEST(RestsOn, AnOverhangThatAClimberCouldHangFromHoldsIfItDoesNot) {
  const Site site = climber_under_an_overhang();
  Site hanging = site;
  Sourced<bool> row;
  row.value = true;
  row.source = "invented for the test";
  hanging.species.hangs = row;
  Settings settings;
  settings.resolution = 0.1;
  settings.climb_inverted = true;
  const Result out = analyse(test::built(hanging), settings);
  const bool gets_out = out.escape_leap_m && *out.escape_leap_m <= 0.7;
  const RestsOn rests = rests_of(site);
  ASSERT_EQ(rests.list.size(), gets_out ? 1U : 0U);
  for (const Assumption& a : rests.list) {
    EXPECT_EQ(a.key, "hangs");
    EXPECT_FALSE(a.confirmed());
  }
}

TEST(RestsOn, AnAnimalSaidNotToHangIsTakenAtItsFilesWord) {
  Site site = climber_under_an_overhang();
  Sourced<bool> row;
  row.value = false;
  row.source = "a trial of climbing animals";
  row.evidence = "trial";
  site.species.hangs = row;
  EXPECT_TRUE(rests_of(site).list.empty());
}

TEST(RestsOn, TheSameYardGivesTheSameWords) {
  const Site site = test::yard(5, 4, 0.9, SheetKind::solid);
  const RestsOn a = rests_of(site);
  const RestsOn b = rests_of(site);
  ASSERT_EQ(a.list.size(), b.list.size());
  for (std::size_t k = 0; k < a.list.size(); ++k) EXPECT_EQ(a.list[k].words, b.list[k].words);
}

// A bank of blocks from fence to fence, thick; it starts in the south, and beyond the fence is low.
// Nothing of its leap is in doubt.
Site banked(double thick, double dig_depth, double dig_length) {
  Site site = test::yard(8, 8, 2.5, SheetKind::solid);
  test::split_sections(site);
  for (Section& s : site.boundary.sections) s.surface = "smooth";
  site.boundary.sections[2].height = 0.5;
  site.leap_start = Vec2{1.0, 1.0};
  Object& bank = test::add_box(site, "bank", {4, 4}, {8.4, thick, 2.5});
  bank.surface = "smooth";
  for (Sourced<double>* row : {&site.species.leap_height, &site.species.leap_distance,
                               &site.species.dig_depth, &site.species.dig_length}) {
    row->source = "seen by its keeper";
    row->evidence = "trial";
  }
  site.species.dig_depth.value = dig_depth;
  site.species.dig_length.value = dig_length;
  return site;
}

bool rests_on_tunnels(const Site& site) {
  const RestsOn rests = rests_of(site);
  return std::any_of(rests.list.begin(), rests.list.end(),
                     [](const Assumption& a) { return a.key == "tunnels"; });
}

TEST(RestsOn, WhatADiggerComesToBeneathWhatStandsInTheYard) {
  EXPECT_TRUE(rests_on_tunnels(banked(2.0, 0.8, 2.5)));
  EXPECT_FALSE(rests_on_tunnels(banked(2.7, 0.8, 2.5)));  // thicker than it digs
  EXPECT_FALSE(rests_on_tunnels(banked(2.0, 0.0, 2.5)));  // it does not dig
  EXPECT_FALSE(rests_on_tunnels(banked(2.0, 0.8, 0.0)));
}

TEST(RestsOn, NoTunnelBeneathWhatIsSetDeeperThanItDigs) {
  Site deep = banked(1.0, 0.8, 4.0);
  deep.objects.front().z = -0.9;
  deep.objects.front().size.z += 0.9;
  EXPECT_FALSE(rests_on_tunnels(deep));
  deep.objects.front().z = -0.5;  // 1 m and twice 0.6 m
  EXPECT_TRUE(rests_on_tunnels(deep));
  deep.species.dig_length.value = 2.0;
  EXPECT_FALSE(rests_on_tunnels(deep));
}

// A house from fence to fence, longer than it digs: in under the one wall, out under the other.
Site housed(double dig_depth, double dig_length) {
  Site site = banked(2.0, dig_depth, dig_length);
  site.objects.clear();
  test::add_hut(site, {{0, 3}, {8, 3}, {8, 5}, {0, 5}}, 3.0);
  return site;
}

TEST(RestsOn, AHouseWithAFloorOfEarthIsDugIntoAndOutOf) {
  EXPECT_TRUE(rests_on_tunnels(housed(0.3, 0.7)));
  Site floored = housed(0.3, 0.7);
  floored.houses[0].solid_floor = true;
  EXPECT_FALSE(rests_on_tunnels(floored));
}

// Twice the footing's depth and its width, at each wall.
TEST(RestsOn, BeneathAHousesFootingOnlyAsFarAsItDigs) {
  Site site = housed(0.5, 1.3);
  site.houses[0].footing = Footing{0.4, 0.2};
  EXPECT_TRUE(rests_on_tunnels(site));
  site.houses[0].footing->width = 0.6;
  EXPECT_FALSE(rests_on_tunnels(site));
  site.houses[0].footing = Footing{0.6, 0.1};
  EXPECT_FALSE(rests_on_tunnels(site));
}

// A tunnel beneath all of it: 2 m and twice 0.3 m, below a footing no deeper than it digs.
TEST(RestsOn, BeneathAWholeHouseBelowItsFooting) {
  Site site = housed(0.5, 3.0);
  site.houses[0].solid_floor = true;
  site.houses[0].footing = Footing{0.3, 0.2};
  EXPECT_TRUE(rests_on_tunnels(site));
  site.houses[0].footing->depth = 0.6;
  EXPECT_FALSE(rests_on_tunnels(site));
  site.houses[0].footing->depth = 0.3;
  site.species.dig_length.value = 2.4;
  EXPECT_FALSE(rests_on_tunnels(site));
}

// Dug into in the south; its room goes on into a store whose footing no tunnel passes.
TEST(RestsOn, OutOfAHouseItHasDugIntoByAHatch) {
  Site site = housed(0.3, 0.7);
  House deep = site.houses[0];
  deep.name = "store";
  deep.outline = {{0, 5}, {8, 5}, {8, 6}, {0, 6}};
  deep.footing = Footing{0.9, 0.2};
  site.houses[0].vents = {WallOpening{"hatch", 2, 3.0, 0.5, 0.5, 0.0, 0.0}};
  site.houses.push_back(deep);
  EXPECT_FALSE(rests_on_tunnels(site));
  site.houses[1].vents = {WallOpening{"hatch", 2, 3.0, 0.5, 0.5, 0.0, 0.0}};
  EXPECT_TRUE(rests_on_tunnels(site));
}

// Water is no soil, but its bed is.
TEST(RestsOn, ATunnelUnderTheBedOfAMoat) {
  Site moated = banked(1.0, 0.8, 4.0);
  moated.objects.clear();
  Water moat;
  moat.name = "moat";
  moat.outline = {{0.0, 3.0}, {8.0, 3.0}, {8.0, 5.0}, {0.0, 5.0}};
  moat.depth = 1.5;
  moat.side_slope = 80 * geom::kDegree;
  moated.waters.push_back(moat);
  moated.place = Place{};
  moated.place->freezes = false;
  moated.species.swims = Sourced<bool>{};
  moated.species.swims->value = false;
  moated.species.swims->source = "seen by its keeper";
  EXPECT_TRUE(rests_on_tunnels(moated));
  moated.species.dig_length.value = 1.0;
  EXPECT_FALSE(rests_on_tunnels(moated));
}

// A house from fence to fence, its door where the animal starts, its hatch (0.5 m by 0.04 m) where
// the fence is 0.5 m high. Its leap is shown.
Site hatched() {
  Site site = test::yard(8.0, 6.0, 3.0, SheetKind::solid);
  test::split_sections(site);
  for (Section& s : site.boundary.sections) s.surface = "smooth";
  site.boundary.sections[2].height = 0.5;
  site.leap_start = Vec2{1.0, 1.0};
  House& house = test::add_hut(site, {{0.0, 2.0}, {8.0, 2.0}, {8.0, 4.5}, {0.0, 4.5}}, 3.5);
  house.door = WallOpening{"door", 0, 3.0, 0.5, 0.5, 0.0, 0.0};
  house.vents = {WallOpening{"hatch", 2, 3.0, 0.5, 0.04, 0.0, 0.0}};
  for (Sourced<double>* row :
       {&site.species.leap_height, &site.species.leap_distance, &site.species.least_opening,
        &site.species.dig_depth, &site.species.dig_length}) {
    row->source = "seen by its keeper";
    row->evidence = "trial";
  }
  site.species.dig_length.value = 0.0;
  return site;
}

// 0.04 m is between the used 0.05 m and the careful 0.03 m; halved four times 0.0413 m still holds.
TEST(RestsOn, AHatchThatOnlyTheCarefulHeadPasses) {
  Site site = hatched();
  EXPECT_TRUE(rests_of(site).list.empty());
  site.species.least_opening.careful = 0.03;
  const RestsOn rests = rests_of(site);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "least_opening");
  EXPECT_NEAR(std::stod(rests.list[0].breaking_value), 0.042, 1e-9);
  site.houses[0].vents[0].height = 0.02;
  EXPECT_TRUE(rests_of(site).list.empty());
  site.houses[0].vents[0].height = 0.045;
  site.species.least_opening.careful.reset();
  site.species.least_opening.source = "from memory";  // four fifths of it are 0.04 m
  EXPECT_EQ(rests_of(site).list.size(), 1U);
}

// The hatch 2 m up: nothing is said to stand in the house.
TEST(RestsOn, WhatStandsInAHouse) {
  Site site = hatched();
  site.houses[0].vents[0].height = 0.5;
  site.houses[0].vents[0].sill = 2.0;
  const RestsOn rests = rests_of(site);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "indoors");
  site.houses[0].vents[0].aperture = 0.02;
  EXPECT_TRUE(rests_of(site).list.empty());
}

}  // namespace
}  // namespace hummock::leap

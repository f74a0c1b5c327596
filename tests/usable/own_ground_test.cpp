// The ground that is the animal's own: what it comes to from where it starts.
#include "engine/usable/own_ground.h"

#include <gtest/gtest.h>

#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_area.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// 10 × 8 m; it leaps 0.7 m up and 1.4 m far and starts in the west.
Site yard() {
  Site site = test::yard(10.0, 8.0, 3.0);
  site.leap_start = Vec2{1.0, 4.0};
  site.species.stand_slope.value = 40 * geom::kDegree;
  site.species.swims = Sourced<bool>{};
  site.species.swims->value = false;
  return site;
}

// Water from fence to fence, steep-sided.
void add_moat(Site& site, double from, double to, double depth = 1.0) {
  Water moat;
  moat.name = "moat";
  moat.outline = {{from, 0.0}, {to, 0.0}, {to, 8.0}, {from, 8.0}};
  moat.depth = depth;
  moat.side_slope = 80 * geom::kDegree;
  site.waters.push_back(moat);
}

double living(const Site& site) {
  const Model model = test::built(site);
  const usable::UsableGround ground(model);
  return usable::living_area(model, ground, usable::find_nodes(model, ground));
}

constexpr double kWest = 3.0 * 8.0, kEast = 4.5 * 8.0;
constexpr double kRim = 2.5;  // m²: two shores of 8 m, known to a cell and a half

TEST(OwnGround, IsTheLargestAndWhatItComesToFromThereWithoutAStart) {
  Site site = yard();
  add_moat(site, 3.0, 5.5);
  site.leap_start.reset();
  EXPECT_NEAR(living(site), kEast, kRim);
  site.leap_start = Vec2{4.25, 4.0};  // in the moat, and it walks on nothing near
  EXPECT_NEAR(living(site), kEast, kRim);
  site.leap_start.reset();
  site.waters.clear();
  add_moat(site, 3.0, 3.8);  // a ditch it leaps
  EXPECT_NEAR(living(site), kWest + 6.2 * 8.0, kRim);
}

TEST(OwnGround, EndsAtAMoatItNeitherLeapsNorSwims) {
  Site site = yard();
  add_moat(site, 3.0, 5.5);
  EXPECT_NEAR(living(site), kWest, kRim);
}

TEST(OwnGround, GoesOnBeyondADitchItLeaps) {
  Site site = yard();
  add_moat(site, 3.0, 3.8);
  EXPECT_NEAR(living(site), kWest + 6.2 * 8.0, kRim);
}

TEST(OwnGround, GoesOnBeyondAMoatOnlyWhereItsFileSaysThatItSwims) {
  Site site = yard();
  add_moat(site, 3.0, 5.5);
  site.species.swims.reset();  // taken to swim for ways out; no proof that it does
  EXPECT_NEAR(living(site), kWest, kRim);
  site.species.swims = Sourced<bool>{};
  site.species.swims->value = true;
  EXPECT_NEAR(living(site), kWest + kEast, kRim);
}

TEST(OwnGround, GoesOnOverADeckAcrossTheMoat) {
  Site site = yard();
  add_moat(site, 3.0, 5.5);
  test::add_box(site, "deck", {4.25, 4.0}, {3.5, 0.6, 0.2}).z = 1.0;  // over its bed
  EXPECT_NEAR(living(site), kWest + kEast, kRim + 1.0);
}

// A wall across the yard with a slot in it: 0.25 m lets an animal 0.12 m wide through at a cell of
// 0.1 m, none does not; nor does a bank of 1.2 m when it leaps 0.7 m, and it leaps down from it.
TEST(OwnGround, GoesThroughASlotItsBodyPassesAndNoOther) {
  Site site = yard();
  test::add_box(site, "north wall", {4.0, 6.1}, {0.3, 3.8, 1.5});
  test::add_box(site, "south wall", {4.0, 1.85}, {0.3, 3.7, 1.5});
  EXPECT_GT(living(site), 75.0);  // a slot of 0.5 m
  site.objects.back().size.y = 4.3;
  site.objects.back().at.y = 2.15;
  EXPECT_NEAR(living(site), 3.85 * 8.0, kRim);
}

// A wall of 2.5 m from fence to fence at x = 4: no leap over it.
Object& add_wall(Site& site, double thick, const std::string& surface) {
  Object& wall = test::add_box(site, "wall", {4.0, 4.0}, {thick, 9.0, 2.5});
  wall.surface = surface;
  return wall;
}

TEST(OwnGround, GoesOnBeyondAWallItClimbsHoweverThin) {
  for (const double thick : {0.02, 0.06, 0.3, 1.0}) {
    for (const double turn : {0.0, 0.15}) {
      Site site = yard();
      site.species.climbs.value = {"wood"};
      add_wall(site, thick, "wood").turn = turn;
      EXPECT_GT(living(site), 72.0 - 9.0 * thick) << thick << " " << turn;
      site.objects.front().surface = "smooth";
      EXPECT_LT(living(site), 35.0) << thick << " " << turn;
      site.objects.front().surface = "wood";
      site.species.climbs.value = {"bark"};
      EXPECT_LT(living(site), 35.0) << thick << " " << turn;
    }
  }
}

TEST(OwnGround, EndsAtAWallThatItCannotClimbToTheTop) {
  Site site = yard();
  site.species.climbs.value = {"wood"};
  add_wall(site, 0.3, "wood");
  Object& sheet = test::add_box(site, "capping", {4.0, 4.0}, {0.9, 9.0, 0.05});  // a roof all along
  sheet.z = 2.5;
  sheet.surface = "smooth";
  EXPECT_LT(living(site), 35.0);
  site.objects.pop_back();
  Object& band = test::add_box(site, "band", {4.0, 4.0}, {0.32, 9.0, 0.4});  // of sheet steel
  band.z = 1.5;
  band.surface = "smooth";
  EXPECT_LT(living(site), 35.0);
  site.objects.pop_back();
  EXPECT_GT(living(site), 70.0);
}

// Up boards and down a smooth face it comes not back.
TEST(OwnGround, EndsWhereItWouldNotComeBack) {
  Site site = yard();
  site.species.climbs.value = {"wood"};
  add_wall(site, 0.3, "wood").at.x = 3.85;
  test::add_box(site, "lining", {4.15, 4.0}, {0.3, 9.0, 2.5}).surface = "smooth";
  EXPECT_LT(living(site), 35.0);
}

TEST(OwnGround, IsNotUpABankItDoesNotLeap) {
  Site site = yard();
  GroundForm bench;
  bench.kind = FormKind::bench;
  bench.outline = {{5.0, -1.0}, {11.0, -1.0}, {11.0, 9.0}, {5.0, 9.0}};
  bench.level = 1.2;
  bench.batter = 0.1;
  site.ground.forms.push_back(bench);
  EXPECT_NEAR(living(site), 4.9 * 8.0, kRim);
  site.leap_start = Vec2{8.0, 4.0};  // down it goes, and comes not back
  EXPECT_NEAR(living(site), 5.0 * 8.0, kRim);
}

}  // namespace
}  // namespace hummock

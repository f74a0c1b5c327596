// The ground that is the animal's own: what it comes to from where it starts.
#include "engine/usable/own_ground.h"

#include <gtest/gtest.h>

#include <random>

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
  site.waters.clear();
  add_moat(site, 3.0, 3.8);  // a ditch it leaps
  EXPECT_NEAR(living(site), kWest + 6.2 * 8.0, kRim);
}

// Not the largest, which nobody said it starts on.
TEST(OwnGround, IsNoneWhereItsStartLiesOnNothingItWalksOn) {
  Site site = yard();
  add_moat(site, 3.0, 5.5);
  site.leap_start = Vec2{4.25, 4.0};
  EXPECT_EQ(living(site), 0.0);
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

// Leapt on to from right below and down again: e(0.2, 0.5) = 0.52 m of its 0.7 m, by a flight that
// is steeper than the least, which its edge is in the way of. e(0.2, 0.75) = 0.76 m.
TEST(OwnGround, GoesOnOverAWallItLeapsOnToAndNoHigherOne) {
  Site site = yard();
  Object& wall = test::add_box(site, "wall", {4.0, 4.0}, {0.3, 8.4, 0.5});
  EXPECT_NEAR(living(site), 9.7 * 8.0, kRim);
  wall.size.z = 0.75;
  EXPECT_NEAR(living(site), 3.85 * 8.0, kRim);
}

// A house from fence to fence, 2 m deep: by its door in the west and a hatch in the east it comes
// to the ground beyond, unless a grille, the sill or the height of either holds it.
Site with_house() {
  Site site = yard();
  House& house = test::add_hut(site, {{3.0, 0.0}, {5.0, 0.0}, {5.0, 8.0}, {3.0, 8.0}}, 2.5);
  house.door = WallOpening{"door", 3, 3.0, 0.6, 0.6, 0.0, 0.0};
  house.vents = {WallOpening{"hatch", 1, 3.0, 0.6, 0.6, 0.0, 0.0}};
  return site;
}

TEST(OwnGround, GoesOnThroughAHouseWithTwoWaysItsBodyWalksThrough) {
  EXPECT_NEAR(living(with_house()), 24.0 + 40.0, kRim);
  for (const auto& change : std::vector<void (*)(House&)>{
           [](House& h) { h.vents[0].aperture = 0.05; }, [](House& h) { h.vents[0].sill = 0.8; },
           [](House& h) { h.door->sill = 0.8; }, [](House& h) { h.door.reset(); },
           [](House& h) { h.vents[0].height = 0.1; }, [](House& h) { h.vents.clear(); }}) {
    Site site = with_house();
    change(site.houses[0]);
    EXPECT_NEAR(living(site), 24.0, kRim);
  }
  Site site = with_house();
  site.houses[0].door->sill = site.houses[0].vents[0].sill = 0.6;
  EXPECT_NEAR(living(site), 24.0 + 40.0, kRim);
}

std::vector<std::uint8_t> houses(const Site& site, const BuildOptions& options = {}) {
  const Model model = test::built(site, options);
  return usable::find_nodes(model, usable::UsableGround(model)).houses;
}

TEST(OwnGround, HoldsTheHousesItGoesInto) {
  using In = std::vector<std::uint8_t>;
  EXPECT_EQ(houses(with_house()), In{1});
  BuildOptions snow;
  snow.snow = 0.5;
  EXPECT_EQ(houses(with_house(), snow), In{0});
  Site site = with_house();
  site.houses[0].vents.clear();
  EXPECT_EQ(houses(site), In{1});
  site.leap_start = Vec2{8.0, 4.0};  // its door is on the other side
  EXPECT_EQ(houses(site), In{0});
}

// The inner house's only door opens into the other.
TEST(OwnGround, GoesThroughOneHouseIntoAnother) {
  Site site = with_house();
  site.houses[0].vents.clear();
  House inner = site.houses[0];
  inner.name = "inner";
  inner.outline = {{5.0, 3.0}, {7.0, 3.0}, {7.0, 5.0}, {5.0, 5.0}};
  inner.door = WallOpening{"door", 3, 0.5, 0.6, 0.6, 0.0, 0.0};
  site.houses.push_back(inner);
  using In = std::vector<std::uint8_t>;
  EXPECT_EQ(houses(site), (In{1, 1}));
  for (Vec2& p : site.houses[1].outline) p.x += 0.06;  // a slit no body fits
  EXPECT_EQ(houses(site), (In{1, 0}));
}

// A wall from fence to fence, lower than it leaps: to gain its crest it runs off from some way
// before it. That it is gained by no less than its height is the closed form e(r, z) >= z.
TEST(OwnGround, GoesOnOverAWallNearlyAsHighAsItLeapsAndOverNoneThatIsHigher) {
  const std::uint64_t seed = 9501;
  std::mt19937_64 random(seed);
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int trial = 0; trial < 40; ++trial) {
    Site site = yard();
    const double leap = between(0.6, 1.2);
    site.species.leap_height.value = leap;
    site.species.leap_distance.value = between(1.5, 3.5) * leap;
    site.species.perch = Sourced<double>{};
    site.species.perch->value = 0.0;
    const bool higher = trial % 2 == 1;
    const double high = leap * (higher ? between(1.001, 1.2) : between(0.85, 0.95));
    const double at = between(4.0, 6.0), thick = between(0.25, 0.5);
    test::add_box(site, "wall", {at, 4.0}, {thick, 8.0, high});
    const double west = 8.0 * (at - 0.5 * thick), east = 8.0 * (10.0 - at - 0.5 * thick);
    EXPECT_NEAR(living(site), higher ? west : west + east, kRim)
        << "seed " << seed << ", trial " << trial << ": " << high << " m of " << leap << " m, "
        << site.species.leap_distance.value << " m far, " << thick << " m thick";
  }
}

}  // namespace
}  // namespace hummock

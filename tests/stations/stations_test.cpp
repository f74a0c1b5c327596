// Stations: where they stand, whether the animal comes to them, how many there are, how far apart.
// The animal is 0.40 × 0.12 × 0.20 m, leaps 0.7 m up, climbs nothing and swims not.
#include "engine/stations/stations.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/stations/small_yards.h"

namespace hummock {
namespace {

using test::add_station;
using test::kind_of;
using test::rectangle;

bool reached(const Site& site, std::size_t k = 0) {
  return stations::analyse(test::built(site)).rows.at(k).reached;
}

TEST(Stations, OnOpenGroundTheyAreComeTo) {
  Site site = test::yard(10, 8, 2.0);
  add_station(site, StationKind::food, Vec2{5, 4});
  add_station(site, StationKind::food, Vec2{-0.1, 4});
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_TRUE(r.rows[0].reached);
  EXPECT_FALSE(r.rows[1].reached) << "outside the fence";
  EXPECT_EQ(kind_of(r, StationKind::food).drawn, 2);
  EXPECT_EQ(kind_of(r, StationKind::food).counts, 1);
  EXPECT_EQ(r.unreached, 1);
}

// Hung over open ground: the back is 0.2 m up, the station's reach 0.3 m.
TEST(Stations, AsHighAsItsBackAndTheReach) {
  for (const auto& [z, comes] : {std::pair(0.45, true), {0.55, false}}) {
    Site site = test::yard(10, 8, 2.0);
    add_station(site, StationKind::water_point, Vec2{5, 4}, "", z);
    EXPECT_EQ(reached(site), comes) << z;
  }
}

// Behind a thin wall 1 m high, 0.2 m from the side where the animal is: nothing is passed through.
TEST(Stations, NotThroughAWall) {
  for (const auto& [height, comes] : {std::pair(1.0, false), {0.1, true}}) {
    Site site = test::yard(10, 8, 2.0);
    test::add_box(site, "south", {5.0, 4.6}, {1.0, 0.02, height});
    test::add_box(site, "north", {5.0, 5.0}, {1.0, 0.02, height});
    test::add_box(site, "west", {4.5, 4.8}, {0.02, 0.42, height});
    test::add_box(site, "east", {5.5, 4.8}, {0.02, 0.42, height});
    add_station(site, StationKind::food, Vec2{5.0, 4.8});
    EXPECT_EQ(reached(site), comes) << height;
  }
}

TEST(Stations, AcrossAMoatOrInDeepWaterTheyAreNot) {
  Site site = test::yard(10, 8, 2.0);
  Water moat;
  moat.name = "moat";
  moat.outline = rectangle({-0.5, 3.0}, {10.5, 5.5});
  moat.level = 0.5;
  site.waters.push_back(moat);
  site.leap_start = Vec2{5.0, 1.0};
  add_station(site, StationKind::food, Vec2{5.0, 7.0});
  add_station(site, StationKind::enrichment, Vec2{5.0, 4.0});
  add_station(site, StationKind::food, Vec2{5.0, 1.0});
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_FALSE(r.rows[0].reached);
  EXPECT_FALSE(r.rows[1].reached);
  EXPECT_TRUE(r.rows[2].reached);
}

// A box it leaps on to; one it does not; the same by way of the first.
TEST(Stations, OnAThingItGetsOnto) {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "low", {3.0, 3.0}, {1.0, 1.0, 0.6});
  test::add_box(site, "high", {7.0, 5.0}, {1.0, 1.0, 1.2});
  add_station(site, StationKind::food, {}, "low");
  add_station(site, StationKind::food, {}, "high");
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_NEAR(r.rows[0].at.z, 0.6, 1e-9);
  EXPECT_NEAR(r.rows[1].at.z, 1.2, 1e-9);
  EXPECT_EQ(geom::xy(r.rows[1].at), (Vec2{7.0, 5.0}));
  EXPECT_TRUE(r.rows[0].reached);
  EXPECT_FALSE(r.rows[1].reached) << "1.2 m is above its leap";
  site.objects[1].at = {4.2, 3.0};
  EXPECT_TRUE(reached(site, 1)) << "0.6 m and again 0.6 m";
}

TEST(Stations, OnAThingItClimbs) {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "stack", {5.0, 4.0}, {1.0, 1.0, 1.2});
  add_station(site, StationKind::food, {}, "stack");
  EXPECT_FALSE(reached(site));
  site.species.climbs.value = {"wood"};
  EXPECT_TRUE(reached(site));
}

// A post's top is no place to lie on, so what stands on it is reached from the ground or not.
TEST(Stations, ATopTooSmallForTheBodyIsNoPlace) {
  for (const auto& [height, comes] : {std::pair(0.4, true), {0.6, false}}) {
    Site site = test::yard(10, 8, 2.0);
    test::add_box(site, "stump", {5.0, 4.0}, {0.1, 0.1, height});
    add_station(site, StationKind::scale, {}, "stump");
    EXPECT_EQ(reached(site), comes) << height;
  }
}

TEST(Stations, OffTheThingItIsSaidToBeOnItCountsForNothing) {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "low", {3.0, 3.0}, {1.0, 1.0, 0.4});
  add_station(site, StationKind::heat_lamp, Vec2{5.0, 5.0}, "low", 1.0);
  add_station(site, StationKind::food, Vec2{5.0, 5.0}, "low");
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_FALSE(r.rows[0].set_out);
  EXPECT_FALSE(r.rows[1].reached);
  EXPECT_EQ(kind_of(r, StationKind::heat_lamp).counts, 0);
  EXPECT_EQ(kind_of(r, StationKind::food).counts, 0);
}

TEST(Stations, InASolidItIsNotComeTo) {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "crate", {3.0, 3.0}, {0.3, 0.3, 0.4});
  add_station(site, StationKind::food, Vec2{3.0, 3.0});
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_EQ(r.rows[0].inside, "crate");
  EXPECT_FALSE(r.rows[0].reached);
}

TEST(Stations, InAHouseItGoesInto) {
  for (const bool door : {true, false}) {
    Site site = test::yard(10, 8, 2.0);
    House& hut = test::add_hut(site, rectangle({2, 2}, {4, 4}), 2.0);
    if (door) hut.door = WallOpening{"door", 0, 0.7, 0.6, 0.6, 0.0, 0.0};
    add_station(site, StationKind::food, Vec2{3.0, 3.0});
    EXPECT_EQ(reached(site), door);
  }
}

// The file says "three bowls for a pair": two will not do, nor three of which one is outside.
TEST(Stations, ThreeBowlsForAPair) {
  Site site = test::yard(10, 8, 2.0);
  site.animals = 2;
  add_station(site, StationKind::food, Vec2{2, 2});
  add_station(site, StationKind::food, Vec2{5, 2});
  add_station(site, StationKind::food, Vec2{8, -1});
  const stations::Result two = stations::analyse(test::built(site));
  EXPECT_EQ(kind_of(two, StationKind::food).counts, 2);
  site.stations[2].at = Vec2{8, 2};
  EXPECT_EQ(kind_of(stations::analyse(test::built(site)), StationKind::food).counts, 3);
}

TEST(Stations, DistancesAreOnPlan) {
  Site site = test::yard(12, 9, 2.0);
  test::add_box(site, "low", {6.0, 5.0}, {1.0, 1.0, 0.6});
  add_station(site, StationKind::food, Vec2{2, 1});
  add_station(site, StationKind::food, Vec2{5, 5});
  add_station(site, StationKind::food, Vec2{9, 5});
  add_station(site, StationKind::water_bowl, Vec2{6, 5}, "low");
  add_station(site, StationKind::water_point, Vec2{2, 4});
  const stations::Result r = stations::analyse(test::built(site));
  EXPECT_NEAR(kind_of(r, StationKind::food).apart_m, 4.0, 1e-9);
  EXPECT_TRUE(std::isinf(kind_of(r, StationKind::water_bowl).apart_m));
  EXPECT_NEAR(r.food_to_water_m, 1.0, 1e-9);
}

// A viewing place on the south side from 2 m to 4 m; the north side is for guests all along.
TEST(Stations, GuestsReachWhatIsNearWhereTheyStand) {
  Site site = test::yard(12, 9, 2.0);
  add_station(site, StationKind::food, Vec2{7, 0.5});
  EXPECT_TRUE(std::isinf(stations::analyse(test::built(site)).rows[0].guests_m));
  test::add_viewing(site, 0, 2.0, 2.0);
  add_station(site, StationKind::food, Vec2{3, 0.8});
  stations::Result r = stations::analyse(test::built(site));
  EXPECT_NEAR(r.rows[0].guests_m, std::hypot(3.0, 0.5), 1e-9);
  EXPECT_NEAR(r.rows[1].guests_m, 0.8, 1e-9);
  EXPECT_EQ(r.in_guests_reach, 1);
  test::split_sections(site);
  site.boundary.sections[2].guest_view = true;
  add_station(site, StationKind::camera, Vec2{7, 8.5});
  r = stations::analyse(test::built(site));
  EXPECT_NEAR(r.rows[2].guests_m, 0.5, 1e-9);
  EXPECT_EQ(r.in_guests_reach, 2);
}

Site furnished() {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "low", {3.0, 3.0}, {1.0, 0.6, 0.5});
  test::add_box(site, "high", {7.0, 5.0}, {0.8, 1.0, 1.2});
  test::add_viewing(site, 0, 2.0, 3.0);
  add_station(site, StationKind::food, {}, "low");
  add_station(site, StationKind::food, Vec2{7.0, 5.0}, "high");
  add_station(site, StationKind::water_bowl, Vec2{4.0, 0.7});
  add_station(site, StationKind::heat_lamp, Vec2{3.2, 3.1}, "", 1.4);
  return site;
}

void expect_alike(const stations::Result& a, const stations::Result& b, double off) {
  ASSERT_EQ(a.rows.size(), b.rows.size());
  for (std::size_t k = 0; k < a.rows.size(); ++k) {
    EXPECT_EQ(a.rows[k].reached, b.rows[k].reached) << k;
    EXPECT_NEAR(a.rows[k].guests_m, b.rows[k].guests_m, 1e-6) << k;
    EXPECT_NEAR(a.rows[k].at.z, b.rows[k].at.z, 1e-6) << k;
  }
  EXPECT_NEAR(a.lamp_clearance_m, b.lamp_clearance_m, off);
  EXPECT_NEAR(a.food_to_water_m, b.food_to_water_m, 1e-6);
}

TEST(Stations, ShiftingTheYardFarAwayChangesNothing) {
  Site there = furnished();
  const Vec2 by{432100.0, 5210400.0};
  for (Vec2& p : there.boundary.outline) p = p + by;
  for (Object& o : there.objects) o.at = o.at + by;
  for (Station& s : there.stations)
    if (s.at) s.at = *s.at + by;
  expect_alike(stations::analyse(test::built(furnished())), stations::analyse(test::built(there)),
               1e-6);
}

// A quarter turn: (x, y) → (8 − y, x); edge 0 of the one lies along edge 1 of the other.
TEST(Stations, TurningTheYardChangesNothing) {
  const Site site = furnished();
  Site other = test::yard(8, 10, 2.0);
  other.objects = site.objects;
  other.stations = site.stations;
  for (Object& o : other.objects) {
    o.at = {8.0 - o.at.y, o.at.x};
    o.turn = 0.5 * geom::kPi;
  }
  for (Station& s : other.stations)
    if (s.at) s.at = Vec2{8.0 - s.at->y, s.at->x};
  test::add_viewing(other, 1, 2.0, 3.0);
  expect_alike(stations::analyse(test::built(site)), stations::analyse(test::built(other)), 0.1);
}

TEST(Stations, AFinerGroundChangesLittle) {
  Site fine = furnished();
  fine.ground.cell = 0.05;
  expect_alike(stations::analyse(test::built(furnished())), stations::analyse(test::built(fine)),
               0.1);
}

}  // namespace
}  // namespace hummock

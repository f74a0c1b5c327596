// How near the animal comes to a heat lamp: closed forms, and places thrown at random (seeded).
// Stretched up the animal is 0.2 m tall, as its file gives it no reach.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/stations/stations.h"
#include "tests/stations/small_yards.h"

namespace hummock {
namespace {

using test::add_station;
using test::rectangle;

constexpr double kTall = 0.2;

double clearance(const Site& site) {
  return stations::analyse(test::built(site)).lamp_clearance_m;
}

TEST(Lamps, OverOpenGround) {
  Site site = test::yard(10, 8, 2.0);
  add_station(site, StationKind::heat_lamp, Vec2{5, 4}, "", 1.5);
  EXPECT_NEAR(clearance(site), 1.5 - kTall, 1e-9);
  site.species.reach->value = 0.5;
  EXPECT_NEAR(clearance(site), 1.0, 1e-9) << "it stretches up";
  site.stations[0].z = 5.0;
  EXPECT_NEAR(clearance(site), stations::kLampSought, 1e-9) << "no more is told";
}

TEST(Lamps, OverAThingAndOverAFloor) {
  Site site = test::yard(10, 8, 2.0);
  test::add_box(site, "crate", {5, 4}, {1.0, 1.0, 0.8});
  add_station(site, StationKind::heat_lamp, Vec2{5, 4}, "crate", 0.9);
  EXPECT_NEAR(clearance(site), 0.9 - kTall, 1e-6);
  Site indoors = test::yard(10, 8, 2.0);
  test::add_hut(indoors, rectangle({2, 2}, {6, 6}), 3.0);
  add_station(indoors, StationKind::heat_lamp, Vec2{4, 4}, "", 1.0);
  EXPECT_NEAR(clearance(indoors), 1.0 - kTall, 1e-6);
}

// A fence 2 m high, 0.5 m beside the lamp: its top is 0.5 m up; climbed, its face is beside it.
TEST(Lamps, BesideAFaceItClimbs) {
  Site site = test::yard(10, 8, 2.0);
  add_station(site, StationKind::heat_lamp, Vec2{5, 0.5}, "", 1.5);
  EXPECT_NEAR(clearance(site), std::hypot(0.5, 0.5), 1e-6);
  site.species.climbs.value = {"mesh"};
  EXPECT_NEAR(clearance(site), 0.5 - kTall, 1e-4);
}

// On a fence's top 1.2 m up, 0.4 m beside; in a den whose lid is higher than the lamp; in a crown.
TEST(Lamps, WhereverTheAnimalMightBe) {
  Site site = test::yard(10, 8, 1.2, SheetKind::solid);
  add_station(site, StationKind::heat_lamp, Vec2{5, 0.4}, "", 1.3);
  EXPECT_NEAR(clearance(site), 0.4, 1e-6);

  Site denned = test::yard(10, 8, 2.0);
  Den den;
  den.name = "nest box";
  den.at = {5, 4};
  den.size = {0.9, 0.9, 1.5};
  den.opening = 0.2;
  denned.dens.push_back(den);
  add_station(denned, StationKind::heat_lamp, Vec2{5, 4}, "", 0.5);
  EXPECT_NEAR(clearance(denned), 0.5 - kTall, 1e-6);

  Site wood = test::yard(10, 8, 2.0);
  test::add_tree(wood, "oak", {5, 4}, 2.0, {2.0, 2.0, 2.0}, 2.0);
  add_station(wood, StationKind::heat_lamp, Vec2{5.9, 4.9}, "", 2.5);
  const double asleep = clearance(wood);
  wood.species.climbs.value = {"bark"};
  EXPECT_GT(asleep, 0.5);
  EXPECT_EQ(clearance(wood), 0.0);
}

// Nobody has shown its leap of 0.7 m up and 1.4 m far, so half as much again is taken, H = 1.05 m:
// straight up 0.2 + 1.05 m; and from the edge of a box, for e = ½ (z + √(z² + x²)) is at most H up
// to z = H − x²/4H.
TEST(Lamps, ALeapAtThem) {
  constexpr double kLeap = 1.05;
  for (const auto& [z, leapt] : {std::pair(1.24, true), {1.26, false}}) {
    Site site = test::yard(10, 8, 2.0);
    add_station(site, StationKind::heat_lamp, Vec2{5, 4}, "", z);
    EXPECT_EQ(stations::analyse(test::built(site)).unguarded_in_leap, leapt ? 1 : 0) << z;
    site.stations[0].guard = true;
    EXPECT_EQ(stations::analyse(test::built(site)).unguarded_in_leap, 0);
  }
  const double highest = 0.8 + kTall + kLeap - 1.0 / (4.0 * kLeap);
  for (const auto& [off, leapt] : {std::pair(-0.1, true), {0.1, false}}) {
    Site site = test::yard(10, 8, 2.0);
    test::add_box(site, "crate", {4.0, 4.0}, {1.0, 1.0, 0.8});
    add_station(site, StationKind::heat_lamp, Vec2{5.5, 4.0}, "", highest + off);
    EXPECT_EQ(stations::analyse(test::built(site)).unguarded_in_leap, leapt ? 1 : 0) << off;
  }
  Site sure = test::yard(10, 8, 2.0);
  sure.species.leap_height.careful = 0.7;
  sure.species.leap_distance.careful = 1.4;
  add_station(sure, StationKind::heat_lamp, Vec2{5, 4}, "", 1.0);
  EXPECT_EQ(stations::analyse(test::built(sure)).unguarded_in_leap, 0) << "0.2 + 0.7 m";
}

TEST(Lamps, AGuardIsWhatIsSaid) {
  Site site = test::yard(10, 8, 2.0);
  add_station(site, StationKind::heat_lamp, Vec2{5, 4}, "", 1.5);
  add_station(site, StationKind::heat_lamp, Vec2{7, 4}, "", 1.5).guard = true;
  EXPECT_EQ(stations::analyse(test::built(site)).unguarded, 1);
}

// The least over 200 000 places in the yard, on the ground or on the box under each, never less
// than ours, which takes the whole cell of a node for its place: up to √½ of a cell nearer, and a
// cell more at a box's rim, where a node just beside its edge stands for it.
TEST(Lamps, PlacesThrownAtRandomAreNoNearer) {
  for (const unsigned seed : {21U, 22U, 23U, 24U, 25U}) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const auto any = [&](double lo, double hi) {
      return std::uniform_real_distribution<double>(lo, hi)(random);
    };
    Site site = test::yard(10, 8, 2.0);
    for (int k = 0; k < 4; ++k)
      test::add_box(site, "box " + std::to_string(k), {2.0 + 2.0 * k, any(3, 5)},
                    {any(0.5, 1.5), any(0.5, 1.5), any(0.2, 1.0)});
    const Vec2 lamp{any(2, 8), any(3, 5)};
    const double up = any(1.3, 1.8);
    add_station(site, StationKind::heat_lamp, lamp, "", up);
    double least = 1e300;
    for (int n = 0; n < 200000; ++n) {
      const Vec2 p{any(0, 10), any(0, 8)};
      double foot = 0.0;
      for (const Object& box : site.objects)
        if (std::abs(p.x - box.at.x) <= 0.5 * box.size.x &&
            std::abs(p.y - box.at.y) <= 0.5 * box.size.y)
          foot = std::max(foot, box.size.z);
      least =
          std::min(least, std::hypot(geom::distance(p, lamp), std::max(0.0, up - foot - kTall)));
    }
    const double ours = clearance(site);
    EXPECT_LE(ours, least + 0.05);
    EXPECT_GE(ours, least - 0.15);
  }
}

}  // namespace
}  // namespace hummock

// The ways through the walls of houses, and the rooms they join.
#include "engine/barrier/house_ways.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using barrier::HouseWay;
using barrier::SpaceKind;

// 3 × 3 m, its door in the south, a hatch of 0.4 m in the east.
Site with_house(bool clockwise = false) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  House& house = test::add_hut(site, {{2, 4}, {5, 4}, {5, 7}, {2, 7}}, 2.5);
  house.door = WallOpening{"door", 0, 1.0, 0.6, 0.7, 0.1, 0.0};
  house.vents = {WallOpening{"hatch", 1, 1.0, 0.4, 0.5, 0.3, 0.03}};
  if (clockwise) {
    std::reverse(house.outline.begin(), house.outline.end());
    house.door = WallOpening{"door", 2, 1.4, 0.6, 0.7, 0.1, 0.0};
    house.vents = {WallOpening{"hatch", 1, 1.6, 0.4, 0.5, 0.3, 0.03}};
  }
  return site;
}

std::vector<HouseWay> ways(const Site& site) {
  return barrier::house_ways(test::built(site));
}

TEST(HouseWays, AreDoorsAndVentsWithTheHouseOnTheirLeft) {
  for (const bool clockwise : {false, true}) {
    const std::vector<HouseWay> list = ways(with_house(clockwise));
    ASSERT_EQ(list.size(), 2u);
    EXPECT_NEAR(geom::distance(list[0].a, {3.0, 4.0}), 0.0, 1e-9);
    EXPECT_NEAR(geom::distance(list[0].b, {3.6, 4.0}), 0.0, 1e-9);
    EXPECT_NEAR(list[0].sill, 0.1, 1e-9);
    EXPECT_NEAR(list[0].top, 0.8, 1e-9);
    EXPECT_NEAR(list[0].ball, 0.6, 1e-9);
    EXPECT_EQ(list[0].beyond.kind, SpaceKind::yard);
    EXPECT_NEAR(geom::distance(list[1].a, {5.0, 5.0}), 0.0, 1e-9);
    EXPECT_EQ(list[1].ball, 0.03);
    EXPECT_TRUE(list[1].grille);
  }
}

TEST(HouseWays, AreCutWhereTheFenceMeetsTheWallAndShutWhereItStandsBefore) {
  Site across = with_house();
  for (Vec2& p : across.houses[0].outline) p.x += 6.8;  // from x 8.8 to 11.8, the fence is x 10
  const std::vector<HouseWay> cut = ways(across);
  ASSERT_EQ(cut.size(),
            5u);  // the yard, by the fence on its side and beyond, the outside, the hatch
  EXPECT_EQ(cut[0].beyond.kind, SpaceKind::yard);
  EXPECT_NEAR(cut[0].to - cut[0].from, 0.2 - barrier::kBeyondWall, barrier::kWayStep);
  EXPECT_FALSE(cut[0].fenced);
  EXPECT_TRUE(cut[1].fenced);
  Site against = with_house();
  for (Vec2& p : against.houses[0].outline) p.x += 5.0;
  against.houses[0].vents[0].edge = 1;  // flush with the fence
  EXPECT_TRUE(ways(against).back().fenced);
}

TEST(HouseWays, JoinHousesToOneRoom) {
  Site site = with_house();
  House next = site.houses[0];
  next.name = "shed";
  for (Vec2& p : next.outline) p.x += 3.0;
  site.houses.push_back(next);
  const Model model = test::built(site);
  const auto all = barrier::house_ways(model);
  EXPECT_EQ(barrier::rooms_of(model, all), (std::vector<int>{0, 0}));
  EXPECT_EQ(barrier::rooms_of(model, {}), (std::vector<int>{0, 1}));
}

// Drawn 0.5 m over one another they are one room for ways out, and two for the room it has; wall to
// wall, or by less than a millimetre, they are two.
TEST(HouseWays, PlansWithAreaInCommonAreOneRoomForWaysOut) {
  const auto rooms = [](double shift, barrier::SharedPlans shared) {
    Site site = with_house();
    House& next = test::add_hut(site, {{2, 7}, {5, 7}, {5, 9}, {2, 9}}, 2.5);
    next.name = "annex";
    for (Vec2& p : next.outline) p.y -= shift;
    return barrier::rooms_of(test::built(site), {}, shared);
  };
  using barrier::SharedPlans;
  EXPECT_EQ(rooms(0.5, SharedPlans::joined), (std::vector<int>{0, 0}));
  EXPECT_EQ(rooms(0.5, SharedPlans::apart), (std::vector<int>{0, 1}));
  EXPECT_EQ(rooms(0.0, SharedPlans::joined), (std::vector<int>{0, 1}));
  EXPECT_EQ(rooms(0.0005, SharedPlans::joined), (std::vector<int>{0, 1}));
}

TEST(HouseWays, PlansShareAreaCrossedOneInTheOtherAndTheSame) {
  const Polygon plan{{2, 4}, {5, 4}, {5, 7}, {2, 7}};
  for (const Polygon& other :
       {Polygon{{1, 5}, {6, 5}, {6, 6}, {1, 6}}, Polygon{{3, 5}, {4, 5}, {4, 6}, {3, 6}}, plan,
        Polygon{{2, 4}, {3, 4}, {3, 7}, {2, 7}}, Polygon{{2, 7}, {5, 7}, {5, 4}, {2, 4}}}) {
    Site site = with_house();
    test::add_hut(site, other, 2.5).name = "other";
    EXPECT_EQ(barrier::rooms_of(test::built(site), {}), (std::vector<int>{0, 0}));
  }
}

// Against the fence (2 m) from outside, its door in the south wall at x 5 to 5.6.
Site against_the_north() {
  Site site = with_house();
  for (Vec2& p : site.houses[0].outline) p = p + Vec2{2.0, 6.0};
  site.houses[0].vents.clear();
  return site;
}

TEST(HouseWays, LeadThroughAHoleOfTheFenceBeforeThem) {
  Site site = against_the_north();
  ASSERT_EQ(ways(site).size(), 1u);
  EXPECT_TRUE(ways(site)[0].fenced);
  Drain hole;
  hole.name = "pop hole";
  hole.edge = 2;  // from (10, 10) to the west
  hole.from = 4.5;
  hole.width = 0.3;
  hole.height = 0.5;
  hole.aperture = 0.2;
  site.boundary.drains = {hole};
  const std::vector<HouseWay> list = ways(site);
  const auto way = std::find_if(list.begin(), list.end(), [](auto& w) { return !w.fenced; });
  ASSERT_NE(way, list.end());
  EXPECT_EQ(way->drain, 0);
  EXPECT_EQ(way->beyond.kind, SpaceKind::yard);
  EXPECT_NEAR(way->to - way->from, 0.3, 2.0 * barrier::kWayStep);
  EXPECT_NEAR(way->sill, 0.1, 1e-9);  // the door's
  EXPECT_NEAR(way->top, 0.5, 1e-9);   // the hole's
  EXPECT_EQ(way->ball, 0.2);
  site.boundary.drains[0].from = 1.0;  // before the wall beside the door
  EXPECT_TRUE(ways(site)[0].fenced);
}

TEST(HouseWays, AreOpenAboveTheFence) {
  Site site = against_the_north();
  site.houses[0].height = 4.0;
  site.houses[0].door->sill = 1.8;
  const std::vector<HouseWay> list = ways(site);
  ASSERT_EQ(list.size(), 2u);
  EXPECT_TRUE(list[0].fenced);
  EXPECT_NEAR(list[0].top, 2.0, 1e-9);
  EXPECT_FALSE(list[1].fenced);
  EXPECT_NEAR(list[1].sill, 2.0, 1e-9);
  EXPECT_NEAR(list[1].ball, 0.5, 1e-9);
}

// A roof at 0.5 m over a door from 0.1 to 0.8 m: 0.4 m below it, 0.3 m above.
TEST(HouseWays, LeadOutsideAboveARoofThatClosesTheYard) {
  Site site = with_house();
  site.houses[0].vents.clear();
  site.roof = Roof{};
  site.roof->height = 0.5;
  site.roof->aperture = 0.02;
  const std::vector<HouseWay> list = ways(site);
  ASSERT_EQ(list.size(), 2u);
  EXPECT_EQ(list[0].beyond.kind, SpaceKind::yard);
  EXPECT_NEAR(list[0].ball, 0.4, 1e-5);
  EXPECT_EQ(list[1].beyond.kind, SpaceKind::outside);
  EXPECT_TRUE(list[1].above_roof);
  EXPECT_NEAR(list[1].ball, 0.3, 1e-5);
  site.roof->outline = Polygon{{1, 1}, {9, 1}, {9, 9}, {1, 9}};  // a shelter
  ASSERT_EQ(ways(site).size(), 1u);
  EXPECT_EQ(ways(site)[0].beyond.kind, SpaceKind::yard);
  site.roof->outline =
      Polygon{{0.2, 1}, {9, 1}, {9, 9}, {0.2, 9}};  // too near to the fence for one
  EXPECT_EQ(ways(site).size(), 2u);
}

}  // namespace
}  // namespace hummock

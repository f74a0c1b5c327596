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

}  // namespace
}  // namespace hummock

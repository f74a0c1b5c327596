// A house the animal cannot go into, and none where it needs one.
#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "engine/houses/houses.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Site with_house(Polygon outline, int door_edge) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  House house;
  house.name = "night house";
  house.outline = std::move(outline);
  house.height = 2.5;
  house.door = WallOpening{"slide", door_edge, 1.0, 0.6, 0.6, 0.0, 0.0};
  site.houses = {house};
  return site;
}

std::vector<std::string> faults(const Site& site) {
  return houses::analyse(test::built(site)).list[0].faults;
}

TEST(Houses, a_door_before_an_unbroken_wall_lets_no_animal_in) {
  Site beside = with_house({{11, 4}, {14, 4}, {14, 7}, {11, 7}}, 3);  // 1 m outside the fence
  ASSERT_EQ(faults(beside).size(), 1u);
  Site against = with_house({{10, 4}, {13, 4}, {13, 7}, {10, 7}}, 3);  // built against it
  ASSERT_EQ(faults(against).size(), 1u);
  EXPECT_NE(faults(against)[0].find("unbroken"), std::string::npos);
  test::add_gate(against, 1, 5.2, 1.0, 1.8);  // with a gate in the fence before the door
  EXPECT_TRUE(faults(against).empty());
}

TEST(Houses, a_hole_of_the_fence_before_its_door_lets_the_animal_in) {
  Site against = with_house({{10, 4}, {13, 4}, {13, 7}, {10, 7}}, 3);
  Drain hole;
  hole.name = "pop hole";
  hole.edge = 1;
  hole.from = 5.4;  // the door is y 5.4 to 6.0
  hole.width = hole.height = 0.6;
  against.boundary.drains = {hole};
  EXPECT_TRUE(faults(against).empty());
  against.boundary.drains[0].height = 0.15;  // it is 0.20 m high
  ASSERT_EQ(faults(against).size(), 1u);
  EXPECT_NE(faults(against)[0].find("does not come to its door"), std::string::npos);
  against.boundary.drains[0] = hole;
  against.boundary.drains[0].from = 2.0;
  EXPECT_NE(faults(against)[0].find("unbroken"), std::string::npos);
}

TEST(Houses, drawn_over_one_another_are_told) {
  Site site = with_house({{2, 4}, {5, 4}, {5, 7}, {2, 7}}, 3);
  test::add_hut(site, {{4.5, 4}, {6, 4}, {6, 7}, {4.5, 7}}, 2.5).name = "annex";
  EXPECT_EQ(houses::analyse(test::built(site)).shared_plans.size(), 1u);
  for (Vec2& p : site.houses[1].outline) p.x += 0.5;
  EXPECT_TRUE(houses::analyse(test::built(site)).shared_plans.empty());
}

TEST(Houses, a_door_into_the_yard_does) {
  EXPECT_TRUE(faults(with_house({{2, 4}, {5, 4}, {5, 7}, {2, 7}}, 3)).empty());
}

// It leaps 0.7 m, its young 0.3 m: both must live there.
TEST(Houses, a_door_counts_when_the_weakest_comes_to_it_over_its_own_ground) {
  Site site = with_house({{2, 6}, {5, 6}, {5, 9}, {2, 9}}, 0);
  site.leap_start = Vec2{1.0, 1.0};
  EXPECT_TRUE(faults(site).empty());
  site.houses[0].door->sill = 0.5;
  EXPECT_TRUE(faults(site).empty());
  site.species.young = Young{};
  site.species.young->leap_height = Sourced<double>{};
  site.species.young->leap_height->value = 0.3;
  ASSERT_EQ(faults(site).size(), 1u);
  EXPECT_NE(faults(site)[0].find("the young leap 0.30 m"), std::string::npos) << faults(site)[0];
  test::add_box(site, "step", {3.3, 5.7}, {0.8, 0.5, 0.25});
  EXPECT_TRUE(faults(site).empty());
}

TEST(Houses, a_wall_or_snow_before_the_door_shuts_it) {
  Site site = with_house({{2, 6}, {5, 6}, {5, 9}, {2, 9}}, 0);
  site.leap_start = Vec2{1.0, 1.0};
  Object& wall = test::add_box(site, "wall", {5.0, 4.0}, {10.4, 0.3, 1.5});
  ASSERT_EQ(faults(site).size(), 1u);
  EXPECT_NE(faults(site)[0].find("does not come to its door"), std::string::npos);
  wall.size.z = 0.5;  // it leaps over
  EXPECT_TRUE(faults(site).empty());
  BuildOptions options;
  const auto under_snow = [&](double depth) {
    options.snow = depth;
    return houses::analyse(test::built(site, options)).list[0].faults;
  };
  EXPECT_TRUE(under_snow(0.35).empty());  // 0.25 m of its door of 0.6 m are free, it is 0.20 m high
  ASSERT_EQ(under_snow(0.45).size(), 1u);
  EXPECT_NE(under_snow(0.45)[0].find("of snow leave 0.15 m"), std::string::npos);
}

// 0.4 m of room for a body of 0.12 m between the door and the fence, on a ground of 0.5 m cells.
TEST(Houses, a_narrow_way_to_the_door_is_seen_on_coarse_ground) {
  Site site = with_house({{4, 6.6}, {8, 6.6}, {8, 9.6}, {4, 9.6}}, 2);
  site.leap_start = Vec2{1.0, 1.0};
  site.ground.cell = 0.5;
  EXPECT_TRUE(faults(site).empty());
  for (Vec2& p : site.houses[0].outline) p.y += 0.3;
  EXPECT_EQ(faults(site).size(), 1u);
}

TEST(Houses, cold_hours_and_no_house_are_a_fault_of_the_site) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.species.outdoor_low.emplace();
  site.species.outdoor_low->value = 5.0;
  const Model model = test::built(site);
  const std::vector<houses::ClimateHour> cold{{"1", -3.0}, {"2", 4.0}, {"3", 9.0}};
  ASSERT_EQ(houses::analyse(model, cold).faults.size(), 1u);
  EXPECT_NE(houses::analyse(model, cold).faults[0].find("2 of 3 hours"), std::string::npos);
  EXPECT_TRUE(houses::analyse(model, {{"1", 6.0}}).faults.empty());
}

}  // namespace
}  // namespace hummock

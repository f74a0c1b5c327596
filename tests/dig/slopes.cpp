// On a slope the nearest way up is square to the ground: the tunnel leans along the fence.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/dig/dig.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

constexpr double kAngles[] = {15.0, 30.0, 45.0};  // degrees
constexpr double kEast = 0.5 * geom::kPi;         // rad clockwise from north

// The ground falls at `angle` towards `downhill`; edges 0 and 2 run up an eastern slope.
Site sloping(double degrees, double downhill) {
  Site site = test::yard(6.0, 4.0, 2.0);
  site.boundary.sections[0].buried = 0.5;
  test::split_sections(site);
  test::add_slope(site, {3.0, 2.0}, degrees * geom::kDegree, downhill);
  return site;
}

Station worst_of(const Result& result, const std::string& thing) {
  for (const Station& s : result.worst_of_each) {
    if (s.thing == thing) return s;
  }
  return {};
}

// The skirt's foot is d cos g from the ground, and d below the ground straight above.
TEST(Slopes, a_skirt_up_a_slope_is_dug_under_square_to_the_ground) {
  for (const double g : kAngles) {
    SCOPED_TRACE(g);
    const Model model = test::built(sloping(g, kEast));
    const Result result = analyse(model);
    const double length = 2.0 * 0.5 * std::cos(g * geom::kDegree);
    int stations = 0;
    for (const Station& s : result.stations) {
      if (s.thing != "edge 0" || s.at.x < 1.0 || s.at.x > 5.0) continue;
      ++stations;
      EXPECT_NEAR(s.least_length_m, length, 1e-9);
      EXPECT_NEAR(s.least_depth_m, 0.5, 1e-9);
      EXPECT_NEAR(s.tunnel_depth_m, 0.5, 1e-9);
    }
    EXPECT_EQ(stations, 40);
    const Station worst = worst_of(result, "edge 2");
    EXPECT_NEAR(worst.least_length_m, length, 1e-9);
    ASSERT_EQ(worst.tunnel.size(), 3u);
    EXPECT_NEAR(geom::distance(worst.tunnel[0], worst.tunnel[1]), 0.5 * length, 1e-9);
    const Vec3 up = geom::unit(worst.tunnel[0] - worst.tunnel[1]);
    EXPECT_NEAR(up.x, std::sin(g * geom::kDegree), 1e-9);  // downhill is east
    EXPECT_NEAR(up.z, std::cos(g * geom::kDegree), 1e-9);
  }
}

// All of the level section, but for what lies across, is cos g as high.
TEST(Slopes, an_apron_up_a_slope_is_passed_in_the_plane_square_to_the_ground) {
  for (const double g : kAngles) {
    SCOPED_TRACE(g);
    Site site = sloping(g, kEast);
    site.boundary.sections[0].apron = Apron{0.6, 0.1, Side::inside};
    const Result result = analyse(test::built(site));
    const double c = std::cos(g * geom::kDegree);
    const double length = 0.1 * c + std::hypot(0.6, 0.4 * c) + 0.5 * c;
    EXPECT_NEAR(worst_of(result, "edge 0").least_length_m, length, 1e-6);
    EXPECT_NEAR(worst_of(result, "edge 0").tunnel_depth_m, 0.5, 1e-6);
  }
}

// The foot is square to the ground on the lower side; on the upper it is the nearest on the line of
// the fence, which rises at the slope's part along it.
TEST(Slopes, a_slope_askew_to_the_fence_is_dug_square_to_on_its_lower_side) {
  for (const double turn : {20.0, 45.0, 160.0}) {  // degrees
    SCOPED_TRACE(turn);
    const double g = 25.0 * geom::kDegree;
    const Result result = analyse(test::built(sloping(25.0, kEast + turn * geom::kDegree)));
    const double along = std::atan(std::tan(g) * std::cos(turn * geom::kDegree));
    const double length = 0.5 * (std::cos(g) + std::cos(along));
    EXPECT_NEAR(worst_of(result, "edge 0").least_length_m, length, 1e-6);
    EXPECT_NEAR(worst_of(result, "edge 0").least_depth_m, 0.5, 1e-6);
  }
}

TEST(Slopes, what_counts_is_no_deeper_than_the_animal_digs) {
  Site site = sloping(30.0, kEast);
  site.species.dig_depth.value = 0.5 + 1e-6;
  site.species.dig_length.value = 0.9;
  EXPECT_FALSE(analyse(test::built(site)).met);
  site.species.dig_depth.value = 0.49;
  EXPECT_TRUE(analyse(test::built(site)).met);
  site.species.dig_depth.value = 0.9;
  site.species.dig_length.value = 0.86;  // 2 · 0.5 · cos 30° = 0.866
  const Result result = analyse(test::built(site));
  for (const WayUnder& way : result.ways_under) {
    EXPECT_TRUE(way.worst.thing == "edge 1" || way.worst.thing == "edge 3") << way.worst.thing;
  }
}

double least_between(const Result& result, double x0, double x1) {
  double least = std::numeric_limits<double>::infinity();
  for (const Station& s : result.stations) {
    if (s.thing == "edge 0" && s.at.x > x0 && s.at.x < x1)
      least = std::min(least, s.least_length_m);
  }
  return least;
}

// Rock below the skirt's foot: the tunnel passes between. East of x = 3 the finished ground is the
// lower, so that the rock lies under it.
TEST(Slopes, rock_close_below_shuts_and_leaves_open_as_on_the_level) {
  Site site = sloping(30.0, kEast);
  site.ground.soil_depth = 0.55;
  const Result open = analyse(test::built(site));
  EXPECT_NEAR(least_between(open, 3.5, 5.0), std::cos(30.0 * geom::kDegree), 1e-6);
  site.ground.soil_depth = 0.5;
  EXPECT_TRUE(std::isinf(least_between(analyse(test::built(site)), 3.5, 5.0)));
}

TEST(Slopes, a_footing_up_a_slope_is_passed_square_to_the_ground) {
  Site site = sloping(30.0, kEast);
  site.boundary.sections[0].buried = 0.0;
  site.boundary.sections[0].footing = Footing{0.5, 0.3};
  const Result result = analyse(test::built(site));
  EXPECT_NEAR(least_between(result, 1.0, 5.0), std::cos(30.0 * geom::kDegree) + 0.3, 1e-6);
}

TEST(Slopes, a_house_on_a_footing_up_a_slope_is_passed_square_to_the_ground) {
  Site site = sloping(20.0, kEast);
  for (Section& s : site.boundary.sections) s.buried = 0.95;
  House house;
  house.name = "night house";
  house.outline = {{1.0, -1.5}, {5.0, -1.5}, {5.0, 0.0}, {1.0, 0.0}};
  house.height = 2.5;
  house.footing = Footing{0.5, 0.2};
  site.houses = {house};
  const Result result = analyse(test::built(site));
  EXPECT_NEAR(worst_of(result, "night house").least_length_m, std::cos(20.0 * geom::kDegree) + 0.2,
              1e-3);
}

// From the end of a burrow level with the skirt's foot: across to the foot, square up from it.
TEST(Slopes, from_a_burrow_the_way_out_leans_too) {
  Site site = sloping(30.0, kEast);
  Burrow burrow;
  burrow.name = "set";
  burrow.mouth = {3.0, 3.0};
  burrow.path = {{3.0, 0.8}};
  burrow.depth = 0.5;
  burrow.diameter = 0.0;
  site.burrows = {burrow};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.burrows.size(), 1u);
  const double left = 0.8 + 0.5 * std::cos(30.0 * geom::kDegree);
  EXPECT_NEAR(result.burrows[0].left_to_dig_m.value_or(0.0), left, 1e-3);
}

}  // namespace
}  // namespace hummock::dig

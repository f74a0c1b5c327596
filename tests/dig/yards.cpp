// Whole yards: what is buried is cut from the built model.
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/dig/dig.h"
#include "engine/dig/dig_json.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

Site skirted(double buried) {
  Site site = test::yard(4.0, 3.0, 2.0);
  site.boundary.sections[0].buried = buried;
  return site;
}

TEST(Dig, a_level_yard_with_a_skirt_has_the_same_tunnel_everywhere) {
  const Result result = analyse(test::built(skirted(0.5)));
  EXPECT_GE(result.stations.size(), 140u);  // 14 m in steps of 0.1 m, and the corners
  for (const Station& s : result.stations) {
    EXPECT_NEAR(s.least_depth_m, 0.5, 1e-9);
    EXPECT_NEAR(s.least_length_m, 1.0, 1e-9);
    EXPECT_EQ(s.weakness, "under the skirt");
  }
  EXPECT_NEAR(result.least_depth_m, 0.5, 1e-9);
  EXPECT_NEAR(result.least_length_m, 1.0, 1e-9);
  EXPECT_FALSE(result.met);  // 0.5 m deep and 1 m long is within 0.9 m and 3 m
  EXPECT_EQ(result.worst.tunnel.size(), 3u);
}

TEST(Dig, it_is_met_when_depth_or_length_is_out_of_reach_and_by_one_who_does_not_dig) {
  EXPECT_TRUE(analyse(test::built(skirted(0.95))).met);
  Site site = skirted(0.5);
  site.species.dig_length.value = 0.99;
  EXPECT_TRUE(analyse(test::built(site)).met);
  site.species.dig_length.value = 1.0;
  EXPECT_FALSE(analyse(test::built(site)).met);
  site = skirted(0.0);
  site.species.dig_depth.value = 0.0;
  EXPECT_TRUE(analyse(test::built(site)).met);
}

// Depth and length must be those of one tunnel.
TEST(Dig, a_footing_and_an_apron_are_found_in_the_model) {
  Site site = skirted(0.3);
  site.boundary.sections[0].apron = Apron{0.8, 0.1, Side::inside};
  Result result = analyse(test::built(site));
  const double with_apron = 0.1 + std::hypot(0.8, 0.2) + 0.3;
  for (const Station& s : result.stations) EXPECT_GE(s.least_length_m, with_apron - 1e-9);
  EXPECT_NEAR(result.least_length_m, with_apron, 1e-9);
  EXPECT_EQ(result.worst.weakness, "round the apron's inner edge and under the skirt");
  site.boundary.sections[0].apron->side = Side::outside;
  result = analyse(test::built(site));
  EXPECT_NEAR(result.least_length_m, with_apron, 1e-9);
  EXPECT_EQ(result.worst.weakness, "round the apron's outer edge and under the skirt");
  site = skirted(0.0);
  site.boundary.sections[0].footing = Footing{0.4, 0.3};
  result = analyse(test::built(site));
  EXPECT_NEAR(result.least_length_m, 0.4 + 0.3 + 0.4, 1e-9);
  EXPECT_NEAR(result.least_depth_m, 0.4, 1e-9);
  EXPECT_EQ(result.worst.weakness, "under the footing");
}

TEST(Dig, rock_at_the_skirts_foot_closes_every_station) {
  Site site = skirted(0.5);
  site.ground.soil_depth = 0.5;
  Result result = analyse(test::built(site));
  EXPECT_FALSE(result.any_open);
  EXPECT_TRUE(result.met);
  EXPECT_TRUE(to_json(result, test::built(site))["least_depth_m"].is_null());
  site.ground.soil_depth = 0.6;
  result = analyse(test::built(site));
  EXPECT_TRUE(result.any_open);
  EXPECT_NEAR(result.least_depth_m, 0.5, 1e-9);
}

TEST(Dig, under_a_gate_only_a_footing_counts) {
  Site site = skirted(0.95);
  const std::string gate = test::add_gate(site, 0, 1.0, 1.0, 1.8).name;
  Result result = analyse(test::built(site));
  EXPECT_FALSE(result.met);
  EXPECT_EQ(result.worst.thing, gate);
  EXPECT_EQ(result.worst.weakness, "under the gate, no footing");
  EXPECT_EQ(result.least_depth_m, 0.0);
  site.boundary.sections[0].footing = Footing{0.95, 0.2};
  result = analyse(test::built(site));
  EXPECT_TRUE(result.met);
  EXPECT_NEAR(result.least_depth_m, 0.95, 1e-9);
}

// Scour takes the ground but leaves the skirt where it was built.
TEST(Dig, ground_lost_at_the_fence_makes_the_tunnel_as_much_shallower) {
  const Result result =
      analyse(test::built(skirted(0.6), {.snow = 0.0, .growth = 0.0, .scour = 0.2}));
  EXPECT_NEAR(result.least_depth_m, 0.4, 1e-9);
  EXPECT_NEAR(result.least_length_m, 0.8, 1e-9);
  const Result bared = analyse(test::built(skirted(0.1), {.snow = 0, .growth = 0, .scour = 0.2}));
  EXPECT_EQ(bared.least_depth_m, 0.0);
  Site site = skirted(0.0);
  site.boundary.sections[0].footing = Footing{0.5, 0.2};
  const Result footing = analyse(test::built(site, {.snow = 0, .growth = 0, .scour = 0.2}));
  EXPECT_NEAR(footing.least_length_m, 0.3 + 0.2 + 0.3, 1e-9);
}

// Across the fence the lower side is nearer; along it both are (slopes.cpp).
TEST(Dig, on_a_slope_the_tunnel_is_shorter_across_the_fence_and_along_it) {
  const double angle = 15.0 * geom::kDegree;
  Site site = skirted(0.5);
  test::split_sections(site);
  test::add_slope(site, {2.0, 1.5}, angle, 0.5 * geom::kPi);  // falls towards +x
  const Result result = analyse(test::built(site));
  for (const Station& s : result.worst_of_each) {
    const bool across = s.thing == "edge 1" || s.thing == "edge 3";
    const double length = across ? 0.5 * (1.0 + std::cos(angle)) : std::cos(angle);
    EXPECT_NEAR(s.least_length_m, length, 1e-6) << s.thing;
  }
  EXPECT_NEAR(result.least_depth_m, 0.5, 1e-6);
}

TEST(Dig, the_weak_stretch_is_named) {
  Site site = skirted(0.8);
  test::split_sections(site);
  site.boundary.sections[2].buried = 0.3;
  const Result result = analyse(test::built(site));
  EXPECT_EQ(result.worst.thing, "edge 2");
  EXPECT_NEAR(result.worst.least_length_m, 0.6, 1e-9);
}

TEST(Dig, round_a_reflex_corner_a_mitred_apron_leaves_no_way_and_an_unmitred_corner_is_looked_at) {
  Site site = test::yard(4.0, 4.0, 2.0);
  site.boundary.outline = {{0, 0}, {4, 0}, {4, 4}, {2, 4}, {2, 2}, {0, 2}};
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
  site.boundary.sections[0].buried = 0.2;
  site.boundary.sections[0].apron = Apron{0.6, 0.1, Side::inside};
  const Result result = analyse(test::built(site));
  EXPECT_NEAR(result.least_length_m, 0.1 + std::hypot(0.6, 0.1) + 0.2, 1e-9);
  // Take the apron away round the reflex corner: only the corner's fan looks there.
  Model model = test::built(site);
  for (Part& part : model.parts) {
    if (part.kind != PartKind::apron) continue;
    std::erase_if(part.mesh.triangles, [&](const geom::Triangle& t) {
      const Vec3 c =
          (part.mesh.vertices[t[0]] + part.mesh.vertices[t[1]] + part.mesh.vertices[t[2]]) *
          (1.0 / 3.0);
      return c.x > 2.02 && c.y < 1.98;
    });
  }
  const Result open = analyse(model);
  EXPECT_LT(open.least_length_m, 0.45);
  EXPECT_EQ(open.worst.weakness, "under the skirt");
}

House house_at(Vec2 corner) {
  House house;
  house.name = "night house";
  house.outline = {corner, corner + Vec2{2, 0}, corner + Vec2{2, 1.5}, corner + Vec2{0, 1.5}};
  house.height = 2.5;
  return house;
}

TEST(Dig, a_house_in_the_yard_is_no_way_out_and_one_beside_it_is) {
  Site site = skirted(0.95);
  site.houses = {house_at({1.0, 1.0})};
  Result result = analyse(test::built(site));
  EXPECT_TRUE(result.met);
  EXPECT_EQ(result.worst_of_each.size(), 2u);
  site.houses = {house_at({4.0, 1.0})};
  result = analyse(test::built(site));
  EXPECT_FALSE(result.met);
  EXPECT_EQ(result.worst.thing, "night house");
  EXPECT_EQ(result.worst.weakness, "under the house wall, nothing known to be buried");
}

// Outside the corner of a house on a footing the ground falls away to a pit whose nearest point is
// straight out of the corner: planes square to the walls pass it by.
TEST(Dig, at_the_corner_of_a_house_a_tunnel_goes_out_between_its_walls) {
  Site site = skirted(0.95);
  site.ground.margin = 6.0;
  site.houses = {house_at({4.0, 1.0})};
  site.houses[0].footing = Footing{0.7, 0.2};
  site.species.dig_depth.value = 1.0;
  const Result level = analyse(test::built(site));
  EXPECT_NEAR(level.least_length_m, 0.7 + 0.2 + 0.7, 1e-9);
  GroundForm pit;
  pit.kind = FormKind::bench;
  pit.outline = {{6.15, 2.65}, {7.5, 2.65}, {7.5, 4.0}, {6.15, 4.0}};  // the corner is (6, 2.5)
  pit.level = -0.9;
  site.ground.forms = {pit};
  const Result fallen = analyse(test::built(site));
  EXPECT_LT(fallen.least_length_m, level.least_length_m - 0.2);
  EXPECT_EQ(fallen.worst.thing, "night house");
  EXPECT_NEAR(geom::distance(fallen.worst.at, {6.0, 2.5}), 0.0, 0.01);
}

TEST(Dig, a_houses_footing_and_floor_count_when_they_are_given) {
  Site site = skirted(0.95);
  site.houses = {house_at({4.0, 1.0})};
  site.houses[0].footing = Footing{0.6, 0.2};
  Result result = analyse(test::built(site));
  EXPECT_NEAR(result.least_depth_m, 0.6, 1e-9);
  EXPECT_NEAR(result.least_length_m, 0.6 + 0.2 + 0.6, 1e-9);
  EXPECT_EQ(result.worst.thing, "night house");
  site.houses[0].footing = std::nullopt;
  site.houses[0].solid_floor = true;
  result = analyse(test::built(site));
  EXPECT_TRUE(result.met);
  EXPECT_NEAR(result.least_depth_m, 0.95, 1e-9);
}

Burrow burrow(Vec2 mouth, std::vector<Vec2> path, double depth) {
  Burrow b;
  b.name = "den hole";
  b.mouth = mouth;
  b.path = std::move(path);
  b.depth = depth;
  return b;
}

TEST(Dig, a_drawn_burrow_is_measured_to_the_ground_outside) {
  Site site = test::yard(12.0, 10.0, 2.0);
  site.boundary.sections[0].buried = 1.0;
  site.species.dig_depth.value = 1.2;
  site.species.dig_length.value = 2.5;
  site.boundary.sections[0].apron = Apron{0.5, 0.2, Side::inside};
  site.burrows = {burrow({6, 5}, {{6, 4}}, 0.8), burrow({4, 3}, {{4, 1}}, 1.0),
                  burrow({4, 3}, {{4, 0.3}}, 0.8), burrow({4, 3}, {{4, -0.3}}, 0.8)};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.burrows.size(), 4u);
  EXPECT_TRUE(result.burrows[0].within);
  EXPECT_NEAR(result.burrows[0].distance_to_barrier_m, 4.0, 1e-9);
  // From 1 m inside, level with the skirt's tip: 1 m to it and 1 m up.
  EXPECT_NEAR(result.burrows[1].left_to_dig_m.value_or(0), 2.0, 1e-9);
  EXPECT_FALSE(result.burrows[1].within);
  // A deeper one starts level with the tip all the same.
  site.burrows[1].depth = 1.15;
  EXPECT_NEAR(analyse(test::built(site)).burrows[1].left_to_dig_m.value_or(0), 2.0, 0.01);
  EXPECT_EQ(result.burrows[2].note, "runs through the apron or the footing");
  EXPECT_EQ(result.burrows[3].note, "leaves the yard under the barrier");
}

Site rough_site() {
  Site site = test::yard(4.0, 3.0, 2.0);
  site.boundary.sections[0].buried = 0.4;
  site.boundary.sections[0].apron = Apron{0.6, 0.1, Side::inside};
  test::split_sections(site);
  site.boundary.sections[1].apron = std::nullopt;
  site.boundary.sections[2].footing = Footing{0.5, 0.2};
  site.ground.soil_depth = 0.9;
  test::add_mound(site, {1.0, 0.5}, 1.5, 0.4);
  test::add_mound(site, {3.8, 2.0}, 1.2, 0.5);
  test::add_slope(site, {2.0, 1.5}, 0.1, 0.7);
  return site;
}

TEST(Dig, one_thread_and_two_give_the_same_bits) {
  const Model model = test::built(rough_site());
  std::string text[2];
  for (int n = 1; n <= 2; ++n) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism,
                                    static_cast<std::size_t>(n));
    const Result result = analyse(model);
    text[n - 1] = to_json(result, model).dump();
    for (const Station& s : result.stations) {
      text[n - 1] += std::to_string(s.least_length_m) + std::to_string(s.least_depth_m);
    }
  }
  EXPECT_EQ(text[0], text[1]);
}

TEST(Dig, the_outlines_winding_and_a_shift_far_away_change_nothing) {
  const Site site = rough_site();
  const Result here = analyse(test::built(site));
  Site moved = site;
  const Vec2 far{384000.0, 5120000.0};
  for (Vec2& p : moved.boundary.outline) p = p + far;
  for (GroundForm& f : moved.ground.forms) f.at = f.at + far;
  const Model model = test::built(moved);
  const Result there = analyse(model);
  EXPECT_NEAR(here.least_length_m, there.least_length_m, 1e-7);
  EXPECT_NEAR(here.least_depth_m, there.least_depth_m, 1e-7);
  EXPECT_NEAR(model.to_site(there.worst.at).x, here.worst.at.x + far.x, 1e-6);
}

TEST(Dig, a_quarter_turn_of_the_site_changes_nothing) {
  const Site site = rough_site();
  Site turned = site;
  const auto quarter = [](Vec2 p) { return Vec2{-p.y, p.x}; };
  for (Vec2& p : turned.boundary.outline) p = quarter(p);
  for (GroundForm& f : turned.ground.forms) {
    f.at = quarter(f.at);
    f.downhill -= 0.5 * geom::kPi;
  }
  const Result one = analyse(test::built(site));
  const Result other = analyse(test::built(turned));
  ASSERT_EQ(one.worst_of_each.size(), other.worst_of_each.size());
  for (std::size_t k = 0; k < one.worst_of_each.size(); ++k) {
    // The triangulation's diagonals turn with the ground's grid, not with the site.
    EXPECT_NEAR(one.worst_of_each[k].least_length_m, other.worst_of_each[k].least_length_m, 0.02);
  }
}

// The finer stations do not stand on the coarser ones, and tunnels that lean are as long as their
// station lets them be: to the millimetre.
TEST(Dig, finer_stations_only_find_shorter_or_equal_tunnels_within_a_little) {
  const Model model = test::built(rough_site());
  const Result coarse = analyse(model, {.station_spacing = 0.1});
  const Result fine = analyse(model, {.station_spacing = 0.05});
  EXPECT_LE(fine.least_length_m, coarse.least_length_m + 1e-3);
  EXPECT_NEAR(fine.least_length_m, coarse.least_length_m, 0.02);
}

}  // namespace
}  // namespace hummock::dig

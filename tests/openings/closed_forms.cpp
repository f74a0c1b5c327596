// Openings whose size is known by hand, in whole yards.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/openings/openings.h"
#include "engine/openings/roof_gaps.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

std::vector<Opening> of_kind(const Result& result, const std::string& what) {
  std::vector<Opening> found;
  for (const Opening& o : result.list) {
    if (o.what == what) found.push_back(o);
  }
  return found;
}

Site sloping_yard(double grade, Fit fit) {
  Site site = test::yard(12.0, 8.0, 2.0);
  test::add_slope(site, {6.0, 4.0}, std::atan(grade), 0.5 * geom::kPi);  // falls towards +x
  site.boundary.sections[0].fit = fit;
  return site;
}

TEST(Openings, a_mesh_passes_a_ball_of_its_aperture) {
  const Result result = analyse(test::built(test::yard(8, 6, 2)));
  ASSERT_EQ(of_kind(result, "mesh aperture").size(), 1u);
  EXPECT_EQ(result.largest_m, 0.025);
  EXPECT_TRUE(result.met);
  EXPECT_EQ(result.list.size(), 1u);
}

TEST(Openings, a_mesh_wider_than_the_head_fails) {
  Site site = test::yard(8, 6, 2);
  site.boundary.sections[0].aperture = 0.05;
  const Result result = analyse(test::built(site));
  EXPECT_FALSE(result.met);
  EXPECT_TRUE(result.list.front().passes);
}

// A level panel of length L on ground of slope g stands on its high end: a wedge g·L high. The
// rigid ball is the circle in a right triangle with legs L and g·L.
TEST(Openings, a_stepped_panel_on_a_slope_leaves_a_wedge_of_slope_times_length) {
  const double g = 0.12, length = 2.0;
  const Result result = analyse(test::built(sloping_yard(g, Fit::stepped)));
  const auto gaps = of_kind(result, "under panel");
  ASSERT_EQ(gaps.size(), 12u);  // six panels along each of the two sloping sides
  for (const Opening& o : gaps) {
    EXPECT_NEAR(o.ball_m, g * length, 1e-9);
    EXPECT_NEAR(o.rigid_ball_m, length + g * length - std::hypot(length, g * length), 4e-4);
    EXPECT_NEAR(o.length_m, length * (1.0 - 0.05 / (g * length)), 1e-9);  // higher than 0.05
    EXPECT_TRUE(o.passes);
  }
  EXPECT_FALSE(result.met);
}

TEST(Openings, a_raked_panel_on_the_same_slope_leaves_nothing) {
  const Result result = analyse(test::built(sloping_yard(0.12, Fit::raked)));
  EXPECT_TRUE(of_kind(result, "under panel").empty());
  EXPECT_TRUE(result.met);
}

TEST(Openings, a_hump_of_ground_fills_the_wedge_and_a_hollow_opens_it) {
  Site site = test::yard(12.0, 8.0, 2.0);
  site.boundary.sections[0].fit = Fit::stepped;
  GroundForm hollow;
  hollow.kind = FormKind::hollow;
  hollow.at = {5.0, 0.0};
  hollow.radius = 0.8;
  hollow.height = 0.15;
  site.ground.forms.push_back(hollow);
  const auto gaps = of_kind(analyse(test::built(site)), "under panel");
  ASSERT_EQ(gaps.size(), 1u);
  EXPECT_NEAR(gaps[0].ball_m, 0.15, 1e-9);  // a node of the ground lies at its deepest
  EXPECT_NEAR(gaps[0].at.x, 5.0, 1e-9);
  EXPECT_LT(gaps[0].rigid_ball_m, 0.15);
  EXPECT_GT(gaps[0].rigid_ball_m, 0.13);
}

TEST(Openings, scour_opens_the_foot_unless_something_is_buried) {
  const BuildOptions scoured{.snow = 0.0, .growth = 0.0, .scour = 0.2};
  Site site = test::yard(8, 6, 2);
  const auto bare = of_kind(analyse(test::built(site, scoured)), "under panel");
  ASSERT_FALSE(bare.empty());
  EXPECT_NEAR(bare[0].ball_m, 0.2, 1e-9);
  site.boundary.sections[0].buried = 0.5;
  EXPECT_TRUE(of_kind(analyse(test::built(site, scoured)), "under panel").empty());
  site.boundary.sections[0].buried = 0.15;
  const auto short_skirt = of_kind(analyse(test::built(site, scoured)), "under panel");
  ASSERT_FALSE(short_skirt.empty());
  EXPECT_NEAR(short_skirt[0].ball_m, 0.05, 1e-9);
  site.boundary.sections[0].buried = 0.0;
  site.boundary.sections[0].footing = Footing{0.4, 0.3};
  EXPECT_TRUE(of_kind(analyse(test::built(site, scoured)), "under panel").empty());
}

TEST(Openings, a_level_gate_on_a_slope_is_open_at_its_low_end) {
  const double g = 0.08;
  Site site = sloping_yard(g, Fit::raked);
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.under_gap = 0.03;
  gate.side_gap = 0.0;
  const auto gaps = of_kind(analyse(test::built(site)), "under gate");
  ASSERT_EQ(gaps.size(), 1u);
  EXPECT_EQ(gaps[0].thing, gate.name);
  EXPECT_NEAR(gaps[0].ball_m, 0.03 + g * 1.0, 1e-9);
}

TEST(Openings, a_gates_sides_pass_what_they_leave) {
  Site site = test::yard(8, 6, 2);
  Gate& gate = test::add_gate(site, 2, 3.0, 1.0, 1.8);
  gate.side_gap = 0.06;
  const Result result = analyse(test::built(site));
  ASSERT_EQ(of_kind(result, "beside gate").size(), 1u);
  EXPECT_NEAR(result.largest_m, 0.06, 1e-12);
  EXPECT_FALSE(result.met);
}

TEST(Openings, a_vestibules_second_gate_is_looked_at_too) {
  Site site = test::yard(8, 6, 2);
  Gate& gate = test::add_gate(site, 0, 3.0, 1.0, 1.8);
  gate.under_gap = 0.07;
  gate.vestibule = Vestibule{1.5, true, true, false};
  EXPECT_EQ(of_kind(analyse(test::built(site)), "under gate").size(), 2u);
}

TEST(Openings, a_joint_passes_its_gap_and_a_step_in_height_is_no_hole) {
  Site site = test::yard(8, 6, 2);
  test::split_sections(site);
  site.boundary.sections[1].height = 3.0;
  EXPECT_TRUE(of_kind(analyse(test::built(site)), "joint").empty());
  site.boundary.sections[1].joint_gap = 0.04;
  const auto joints = of_kind(analyse(test::built(site)), "joint");
  ASSERT_EQ(joints.size(), 3u);  // its own, and with either neighbour half of it
  EXPECT_NEAR(joints[0].ball_m, 0.04, 1e-12);
  EXPECT_NEAR(joints[1].ball_m, 0.02, 1e-12);
}

TEST(Openings, a_roof_above_the_fence_leaves_the_difference) {
  Site site = test::yard(8, 6, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::mesh;
  site.roof->aperture = 0.025;
  site.roof->height = 2.34;
  const auto edge = of_kind(analyse(test::built(site)), "roof edge");
  ASSERT_EQ(edge.size(), 1u);
  EXPECT_NEAR(edge[0].ball_m, 0.34, 1e-4);  // rays are single precision
  EXPECT_TRUE(edge[0].passes);
  EXPECT_NEAR(edge[0].length_m, 28.0, 1e-6);
  site.roof->height = 2.0;
  EXPECT_TRUE(of_kind(analyse(test::built(site)), "roof edge").empty());
  site.roof->height = 1.9;  // it meets the fence below its top
  EXPECT_TRUE(of_kind(analyse(test::built(site)), "roof edge").empty());
}

// A roof short of the fence by w all round: the largest circle sits in a corner, touching two
// fences and the roof's corner: r = w·√2 / (1 + √2).
TEST(Openings, a_roof_smaller_than_the_yard_leaves_a_frame) {
  const double w = 0.2;
  Site site = test::yard(8, 6, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::solid;
  site.roof->height = 2.0;
  site.roof->outline = Polygon{{w, w}, {8 - w, w}, {8 - w, 6 - w}, {w, 6 - w}};
  const auto edge = of_kind(analyse(test::built(site)), "roof edge");
  ASSERT_EQ(edge.size(), 1u);
  EXPECT_NEAR(edge[0].ball_m, 2.0 * w * std::sqrt(2.0) / (1.0 + std::sqrt(2.0)), 3e-3);
  EXPECT_TRUE(edge[0].passes);
  site.roof->outline = Polygon{{1, 1}, {3, 1}, {3, 3}, {1, 3}};
  const Result canopy = analyse(test::built(site));
  ASSERT_EQ(of_kind(canopy, "roof edge").size(), 1u);
  EXPECT_FALSE(of_kind(canopy, "roof edge")[0].passes);
  EXPECT_TRUE(canopy.met);
}

TEST(Openings, drains_and_vents_pass_their_least_measure_or_their_grille) {
  Site site = test::yard(8, 6, 2);
  Drain drain;
  drain.name = "ditch";
  drain.edge = 1;
  drain.from = 2.0;
  drain.width = 0.3;
  drain.height = 0.12;
  site.boundary.drains = {drain};
  House house;
  house.name = "night house";
  house.outline = {{8, 1}, {11, 1}, {11, 3}, {8, 3}};
  house.height = 2.5;
  WallOpening vent{"east vent", 1, 0.5, 0.4, 0.2, 1.5, 0.0};
  WallOpening inwards{"yard vent", 3, 0.5, 0.4, 0.2, 1.5, 0.0};
  house.vents = {vent, inwards};
  site.houses = {house};
  Result result = analyse(test::built(site));
  EXPECT_NEAR(of_kind(result, "drain")[0].ball_m, 0.12, 1e-12);
  EXPECT_TRUE(of_kind(result, "under panel").empty());  // the drain's own hole is no gap
  const auto vents = of_kind(result, "vent");
  ASSERT_EQ(vents.size(), 2u);
  EXPECT_NEAR(vents[0].ball_m, 0.2, 1e-12);
  EXPECT_TRUE(vents[0].passes);
  EXPECT_FALSE(vents[1].passes);  // its outer side is in the yard
  EXPECT_FALSE(result.met);
  site.boundary.drains[0].aperture = 0.02;
  site.houses[0].vents = {vent};
  site.houses[0].vents[0].aperture = 0.02;
  EXPECT_TRUE(analyse(test::built(site)).met);
}

// The body is 0.12 m wide: between 0.06 and 0.12 m it wedges.
TEST(Openings, a_stone_a_chest_from_the_wall_is_an_entrapment_gap) {
  for (const double gap : {0.03, 0.07, 0.11, 0.2}) {
    Site site = test::yard(8, 6, 2);
    test::add_box(site, "block", {gap + 0.5, 3.0}, {1.0, 1.0, 0.6});
    const Result result = analyse(test::built(site));
    const auto entrapment_gaps = of_kind(result, "pinch");
    const bool wedges = gap > 0.06 && gap < 0.12;
    ASSERT_EQ(entrapment_gaps.size(), wedges ? 1u : 0u) << gap;
    EXPECT_TRUE(result.met);  // no way out
    EXPECT_EQ(result.largest_m, 0.025);
    if (wedges) {
      EXPECT_NEAR(entrapment_gaps[0].ball_m, gap, 1e-9);
    }
  }
}

TEST(Openings, two_stones_a_chest_apart_are_a_entrapment_gap) {
  Site site = test::yard(8, 6, 2);
  test::add_box(site, "one", {3.0, 3.0}, {1.0, 1.0, 0.6});
  test::add_box(site, "other", {4.08, 3.2}, {1.0, 1.0, 0.6});
  const auto entrapment_gaps = of_kind(analyse(test::built(site)), "pinch");
  ASSERT_EQ(entrapment_gaps.size(), 1u);
  EXPECT_NEAR(entrapment_gaps[0].ball_m, 0.08, 1e-9);
  EXPECT_EQ(entrapment_gaps[0].thing, "one and other");
}

TEST(Openings, shifting_the_site_far_away_changes_no_size) {
  Site site = sloping_yard(0.1, Fit::stepped);
  test::add_gate(site, 1, 2.0, 1.0, 1.8).under_gap = 0.04;
  const Result here = analyse(test::built(site));
  const Vec2 far{512300.0, 4123400.0};
  for (Vec2& p : site.boundary.outline) p = p + far;
  for (GroundForm& f : site.ground.forms) f.at = f.at + far;
  const Result there = analyse(test::built(site));
  ASSERT_EQ(here.list.size(), there.list.size());
  for (std::size_t k = 0; k < here.list.size(); ++k) {
    EXPECT_NEAR(here.list[k].ball_m, there.list[k].ball_m, 1e-9);
  }
}

}  // namespace
}  // namespace hummock::openings

// Gates in whole yards: what is drawn, what stands in the way, and where an open door leads.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/entry/entry.h"
#include "engine/entry/entry_json.h"
#include "engine/entry/gate_swing.h"
#include "tests/support/yard.h"

namespace hummock::entry {
namespace {

Site gated(std::optional<Vestibule> vestibule, SheetKind kind = SheetKind::mesh) {
  Site site = test::yard(8.0, 6.0, 2.2, kind);
  Gate& gate = test::add_gate(site, 0, 3.0, 1.0, 2.0);
  gate.under_gap = 0.02;
  gate.vestibule = vestibule;
  return site;
}

const Vestibule kGood{2.2, true, true, false};

GateRow gate_row(const Site& site) {
  const Result result = analyse(test::built(site));
  EXPECT_EQ(result.gates.size(), 1u);
  return result.gates.front();
}

TEST(Entry, a_whole_vestibule_is_met) {
  const GateRow row = gate_row(gated(kGood));
  EXPECT_TRUE(row.met) << (row.faults.empty() ? "" : row.faults[0]);
  EXPECT_FALSE(row.one_open_door_escapes);
  EXPECT_EQ(row.leads_to, "into the vestibule, shut by its second gate");
  EXPECT_EQ(row.hinge, "either post");
  EXPECT_TRUE(row.faults.empty());
}

TEST(Entry, without_a_vestibule_one_open_door_leads_out) {
  const GateRow row = gate_row(gated(std::nullopt));
  EXPECT_FALSE(row.met);
  EXPECT_TRUE(row.one_open_door_escapes);
  EXPECT_EQ(row.leads_to, "straight to the outside");
}

TEST(Entry, a_vestibule_without_a_second_gate_is_an_open_passage) {
  Vestibule open = kGood;
  open.second_gate = false;
  const GateRow row = gate_row(gated(open));
  EXPECT_TRUE(row.one_open_door_escapes);
  EXPECT_EQ(row.leads_to, "through the vestibule to the outside");
}

// The flags say two gates; the wall that is missing says otherwise.
TEST(Entry, a_hole_in_the_vestibules_wall_is_found_whatever_the_flags_say) {
  Model model = test::built(gated(kGood));
  geom::Mesh& wall = model.parts[static_cast<std::size_t>(model.gateways[0].vestibule_part)].mesh;
  std::erase_if(wall.triangles, [&](const geom::Triangle& t) {
    return std::all_of(t.begin(), t.end(),
                       [&](std::uint32_t v) { return std::abs(wall.vertices[v].x - 3.0) < 1e-9; });
  });
  const Result result = analyse(model);
  EXPECT_TRUE(result.gates[0].one_open_door_escapes);
  EXPECT_TRUE(result.gates[0].second_gate);
  EXPECT_FALSE(result.met);
}

TEST(Entry, a_vestibule_must_hold_keeper_barrow_and_a_leaf_that_opens_into_it) {
  Site site = gated(kGood);
  site.boundary.gates[0].vestibule->depth = 2.0;
  EXPECT_FALSE(gate_row(site).long_enough);
  EXPECT_NEAR(gate_row(site).needed_depth_m, 2.1, 1e-12);
  site.boundary.gates[0].vestibule->depth = 2.2;
  site.boundary.gates[0].opens_inwards = false;
  EXPECT_NEAR(gate_row(site).needed_depth_m, 3.1, 1e-12);
  EXPECT_FALSE(gate_row(site).long_enough);
  site.boundary.gates[0].vestibule->depth = 3.2;
  EXPECT_TRUE(gate_row(site).met);
}

TEST(Entry, a_solid_gate_needs_a_window_and_a_mesh_one_is_seen_through) {
  Vestibule blind = kGood;
  blind.window = false;
  EXPECT_TRUE(gate_row(gated(blind, SheetKind::mesh)).window);
  EXPECT_FALSE(gate_row(gated(blind, SheetKind::solid)).window);
  EXPECT_TRUE(gate_row(gated(kGood, SheetKind::solid)).window);
}

TEST(Entry, a_stone_in_the_swing_is_named_and_the_other_hinge_tried) {
  Site site = gated(kGood);
  test::add_box(site, "trough", {3.1, 0.9}, {0.3, 0.3, 0.5});
  GateRow row = gate_row(site);
  EXPECT_TRUE(row.swing_free);  // about the far post: the trough is farther from it than a leaf
  EXPECT_EQ(row.in_the_swing, "trough");
  EXPECT_EQ(row.hinge, "the post at (4.00, 0.00)");
  test::add_box(site, "log stack", {3.5, 0.5}, {0.3, 0.3, 0.5});
  row = gate_row(site);
  EXPECT_FALSE(row.swing_free);
  EXPECT_FALSE(row.met);
  site.boundary.gates[0].opens_inwards = false;
  site.boundary.gates[0].vestibule->depth = 3.2;
  EXPECT_TRUE(gate_row(site).swing_free);
}

TEST(Entry, a_stone_lower_than_the_leafs_foot_does_not_stop_it) {
  Site site = gated(kGood);
  site.boundary.gates[0].under_gap = 0.1;
  test::add_box(site, "slab", {3.5, 0.5}, {0.3, 0.3, 0.09});
  EXPECT_TRUE(gate_row(site).swing_free);
  site.objects[0].size.z = 0.11;
  EXPECT_FALSE(gate_row(site).swing_free);
}

TEST(Entry, ground_that_rises_into_the_yard_stops_a_leaf_that_opens_inwards) {
  Site site = gated(kGood);
  test::add_slope(site, {4.0, 0.0}, 5.0 * geom::kDegree, geom::kPi);  // falls towards −y
  GateRow row = gate_row(site);
  EXPECT_FALSE(row.swing_free);
  EXPECT_EQ(row.in_the_swing, "the ground");
  site.boundary.gates[0].under_gap = std::tan(5.0 * geom::kDegree) * 1.0 + 0.001;
  EXPECT_TRUE(gate_row(site).swing_free);
}

TEST(Entry, a_vestibule_shorter_than_a_leaf_that_opens_outwards_is_in_its_way) {
  Site site = gated(kGood);
  site.boundary.gates[0].opens_inwards = false;
  site.boundary.gates[0].vestibule->depth = 0.8;
  EXPECT_FALSE(gate_row(site).swing_free);
}

TEST(Entry, a_house_door_to_the_outside_is_an_entry_and_one_to_the_yard_is_not) {
  Site site = test::yard(8, 6, 2);
  House house;
  house.name = "night house";
  house.outline = {{8, 1}, {11, 1}, {11, 3}, {8, 3}};
  house.height = 2.5;
  house.door = WallOpening{"slide", 3, 0.5, 0.8, 1.0, 0.0, 0.0};
  site.houses = {house};
  EXPECT_TRUE(analyse(test::built(site)).gates.empty());
  site.houses[0].door = WallOpening{"keepers' door", 1, 0.5, 0.8, 2.0, 0.0, 0.0};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.gates.size(), 1u);
  EXPECT_TRUE(result.gates[0].one_open_door_escapes);
  EXPECT_FALSE(result.met);
}

// Exact test of a triangle against the swept quarter against thousands of its points.
TEST(Entry, a_triangle_reaches_into_the_swing_when_one_of_its_points_does) {
  const std::uint64_t seed = 12;
  std::mt19937_64 random(seed);
  const auto uniform = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  Swing swing;
  swing.hinge = {2.0, 1.0};
  swing.along = geom::unit(Vec2{3.0, 1.0});
  swing.towards = left_of(swing.along);
  swing.radius = 1.0;
  swing.foot = 0.1;
  swing.top = 2.0;
  int in = 0;
  for (int trial = 0; trial < 400; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Vec3 c{uniform(0.5, 4), uniform(-0.5, 3), uniform(-0.3, 2.5)};
    Vec3 corner[3];
    for (Vec3& v : corner) {
      v = c + Vec3{uniform(-0.5, 0.5), uniform(-0.5, 0.5), uniform(-0.5, 0.5)};
    }
    bool sampled = false;
    double nearest = 1e300;  // how near the boundary of the swept space the samples come
    constexpr int kSteps = 120;
    for (int i = 0; i <= kSteps; ++i) {
      for (int j = 0; i + j <= kSteps; ++j) {
        const Vec3 p = corner[0] + (corner[1] - corner[0]) * (1.0 * i / kSteps) +
                       (corner[2] - corner[0]) * (1.0 * j / kSteps);
        const Vec2 w = xy(p) - swing.hinge;
        const double x = dot(w, swing.along), y = dot(w, swing.towards);
        const double slack = std::min({x - kClear, y - kClear, p.z - swing.foot, swing.top - p.z,
                                       swing.radius - std::hypot(x, y)});
        if (slack > 0.0) sampled = true;
        nearest = std::min(nearest, -slack);
      }
    }
    const bool exact = reaches_into(swing, corner);
    if (sampled) {
      EXPECT_TRUE(exact);
    }
    if (exact && !sampled) {
      EXPECT_LT(nearest, 0.02);
    }
    in += exact ? 1 : 0;
  }
  EXPECT_GT(in, 40);
  EXPECT_LT(in, 360);
}

TEST(Entry, json_and_figures_count_what_is_short) {
  const Model model = test::built(gated(std::nullopt));
  const Result result = analyse(model);
  const auto json = to_json(result, model);
  EXPECT_EQ(json["gates"].size(), 1u);
  EXPECT_FALSE(json["met"].get<bool>());
  Figures figures;
  add_figures(result, model, figures);
  EXPECT_EQ(figures["entry.one_door_ways_out"].value.value_or(-1), 1.0);
}

}  // namespace
}  // namespace hummock::entry

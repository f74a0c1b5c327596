// Doors and vestibules on the barrier chain: each left open in turn.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/entry/entry.h"
#include "tests/support/yard.h"

namespace hummock::entry {
namespace {

Site gated(SheetKind kind = SheetKind::mesh) {
  Site site = test::yard(10.0, 10.0, 3.0, kind);
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.under_gap = 0.02;
  gate.vestibule = Vestibule{2.4, true, true, false};
  return site;
}

GateRow row_of(const Site& site) {
  const Result result = analyse(test::built(site));
  EXPECT_EQ(result.gates.size(), 1u);
  return result.gates.empty() ? GateRow{} : result.gates.front();
}

Site roofed() {
  Site site = gated();
  site.species.climbs.value = {"mesh"};
  site.roof = Roof{};
  site.roof->kind = SheetKind::mesh;
  site.roof->aperture = 0.02;
  site.roof->above_fence = 0.0;
  return site;
}

TEST(EntryWalls, a_climber_leaves_an_open_topped_vestibule_of_a_roofed_yard) {
  Site site = roofed();
  const GateRow row = row_of(site);
  EXPECT_TRUE(row.one_open_door_escapes);
  EXPECT_FALSE(row.met);
  site.boundary.gates[0].vestibule->roofed = true;
  EXPECT_TRUE(row_of(site).met);
}

TEST(EntryWalls, a_roof_that_reaches_over_the_vestibule_closes_it) {
  Site site = roofed();
  site.roof->outline =
      Polygon{{0, 0}, {3, 0}, {3, -3}, {6, -3}, {6, 0}, {10, 0}, {10, 10}, {0, 10}};
  EXPECT_TRUE(row_of(site).met);
}

TEST(EntryWalls, a_vestibule_without_the_fences_overhang_is_climbed) {
  Site site = gated();
  site.boundary.sections[0].overhang = Overhang{0.9, 20.0 * geom::kDegree};
  EXPECT_TRUE(row_of(site).met);  // the test animal climbs nothing, and 3 m is out of its reach
  site.species.climbs.value = {"mesh"};
  EXPECT_TRUE(row_of(site).one_open_door_escapes);
  Site solid = gated(SheetKind::solid);
  solid.species.climbs.value = {"mesh"};
  solid.boundary.sections[0].overhang = Overhang{0.9, 20.0 * geom::kDegree};
  EXPECT_TRUE(row_of(solid).met);  // boards are not climbed
  solid.species.leap_height.value = 3.1;
  EXPECT_TRUE(row_of(solid).one_open_door_escapes);
}

// With the inner gate open its walls are the barrier, whatever the fence beside it holds.
TEST(EntryWalls, a_vestibule_that_is_climbed_as_its_fence_is_leads_out) {
  Site site = gated();
  EXPECT_TRUE(row_of(site).met);
  site.species.climbs.value = {"mesh"};
  EXPECT_TRUE(row_of(site).one_open_door_escapes);
  EXPECT_NE(row_of(site).leads_to.find("into the vestibule and out"), std::string::npos);
}

// e(0, z) = z: what stands in the vestibule counts as it would in the yard.
TEST(EntryWalls, a_step_in_the_vestibule_leads_over_its_walls) {
  Site site = gated(SheetKind::solid);
  EXPECT_TRUE(row_of(site).met);
  test::add_box(site, "bin", {4.1, -1.5}, {0.2, 0.6, 0.9});
  EXPECT_TRUE(row_of(site).met);  // 2.1 m are left to the top of the wall
  site.objects[0].size.z = 2.2;
  site.species.leap_height.value = 2.3;
  EXPECT_TRUE(row_of(site).one_open_door_escapes);
}

TEST(EntryWalls, a_vestibule_in_the_yards_other_arm_is_none) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  site.boundary.outline = {{0, 0}, {4, 0}, {4, 6}, {6, 6}, {6, 0}, {10, 0}, {10, 10}, {0, 10}};
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5, 6, 7};
  Gate& gate = test::add_gate(site, 1, 2.5, 1.0, 1.8);
  gate.under_gap = 0.02;
  gate.vestibule = Vestibule{2.5, true, true, true};
  const GateRow row = row_of(site);
  EXPECT_FALSE(row.met);
  EXPECT_TRUE(std::any_of(row.faults.begin(), row.faults.end(), [](const std::string& fault) {
    return fault.find("another stretch of the yard") != std::string::npos;
  }));
}

// The ray through the middle of the doorway meets the bollard; the animal, 0.12 m wide, passes
// beside it.
TEST(EntryDoorway, a_bollard_before_a_doorway_does_not_stop_a_body_that_fits_beside_it) {
  Site site = gated();
  site.boundary.gates[0].vestibule.reset();
  test::add_post(site, "bollard", {4.5, -0.1}, 0.08, 1.0);
  EXPECT_TRUE(row_of(site).one_open_door_escapes);
  site.boundary.gates[0].vestibule = Vestibule{2.4, false, true, false};
  EXPECT_EQ(row_of(site).leads_to, "through the vestibule to the outside");
}

// Taller than the gate, so that it leaps none; where its head goes its body follows.
TEST(EntryDoorway, bollards_closer_than_the_head_do) {
  Site site = gated();
  site.boundary.gates[0].vestibule.reset();
  for (int k = 0; k < 14; ++k) {
    test::add_post(site, "bollard " + std::to_string(k), {4.0 + k / 13.0, -0.1}, 0.05, 2.0);
  }
  const GateRow row = row_of(site);
  EXPECT_FALSE(row.met);
  EXPECT_EQ(row.leads_to, "nowhere: something stands in the doorway");
}

TEST(EntryDoors, a_house_door_to_the_outside_counts_without_any_gate) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  House house;
  house.name = "h";
  house.outline = {{-1, 4}, {2, 4}, {2, 7}, {-1, 7}};  // across the west fence
  house.height = 2.4;
  house.door = WallOpening{"door", 3, 1.0, 0.8, 1.9, 0.0, 0.0};
  site.houses = {house};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.gates.size(), 1u);
  EXPECT_TRUE(result.gates[0].one_open_door_escapes);
  site.houses[0].door->edge = 1;  // into the yard
  EXPECT_TRUE(analyse(test::built(site)).gates.empty());
}

}  // namespace
}  // namespace hummock::entry

// Joints beside gates, and what lies beyond a vent.
#include <gtest/gtest.h>

#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double largest(const Site& site, const std::string& what) {
  double most = 0.0;
  for (const Opening& o : analyse(test::built(site)).list) {
    if (o.what == what) most = std::max(most, o.ball_m);
  }
  return most;
}

TEST(Joints, beside_a_gate_the_panels_half_joint_adds_to_the_gap_at_its_side) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  site.boundary.sections[0].joint_gap = 0.055;
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.side_gap = 0.04;
  EXPECT_NEAR(largest(site, "beside gate"), 0.04 + 0.0275, 1e-12);
  EXPECT_NEAR(largest(site, "joint"), 0.055, 1e-12);
}

// A vent into another house is no way out, one into the open is.
TEST(Vents, lead_to_what_lies_beyond_them) {
  Site site = test::yard(10.0, 10.0, 2.0);
  House house;
  house.name = "night house";
  house.outline = {{10, 1}, {13, 1}, {13, 3}, {10, 3}};
  house.height = 2.5;
  house.vents = {WallOpening{"north vent", 2, 1.0, 0.4, 0.2, 1.5, 0.0}};
  House store = house;
  store.name = "store";
  store.vents.clear();
  store.outline = {{10, 3}, {13, 3}, {13, 5}, {10, 5}};
  site.houses = {house};
  EXPECT_FALSE(analyse(test::built(site)).met);
  site.houses.push_back(store);
  EXPECT_TRUE(analyse(test::built(site)).met);
}

}  // namespace
}  // namespace hummock::openings

// A standard fence still stands: 2.44 m of mesh with 0.9 m at 35, 40 and 45 degrees, square and
// L-shaped, with a gate of 2.1 m, for a small climbing canid. Met, and its *ifs* listed: it rests
// on one thing, that the animal does not go hand over hand beneath the overhang.
#include <gtest/gtest.h>

#include "engine/leap/rows/rests_on.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

// The shipped corsac's leap and its careful end, and every row of the body left out.
Species fence_canid() {
  Species s = test::test_animal(1.0, 2.0);
  s.leap_height.careful = 2.0;
  s.grip.value = 0.10;
  s.stand_slope.value = 45.0 * geom::kDegree;
  s.climbs.value = {"mesh", "rock", "wood"};
  s.body.value = {0.55, 0.14, 0.30};
  s.least_opening.value = 0.06;
  s.crouch.reset();
  s.reach.reset();
  s.perch.reset();
  s.climbs_past_upright.reset();
  s.hangs.reset();
  s.swims.reset();
  s.leap_from_water.reset();
  return s;
}

Site standard_yard(bool ell, double angle_degrees) {
  Site site = test::yard(6, 5, 2.44, SheetKind::mesh);
  site.species = fence_canid();
  if (ell) {
    site.boundary.outline = {{0, 0}, {6, 0}, {6, 5}, {3.5, 5}, {3.5, 2.5}, {0, 2.5}};
    site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
  }
  site.boundary.sections[0].overhang = Overhang{0.9, angle_degrees * geom::kDegree};
  test::add_gate(site, 0, 2.0, 1.0, 2.1);
  return site;
}

class StandardFence : public testing::TestWithParam<std::pair<bool, double>> {};

TEST_P(StandardFence, StandsIfTheAnimalDoesNotHang) {
  Settings settings;
  settings.resolution = 0.1;
  settings.required_margin = 1.3;
  settings.remedies = false;
  const Model model = test::built(standard_yard(GetParam().first, GetParam().second));
  const Result found = analyse(model, settings);
  EXPECT_TRUE(found.complete);
  EXPECT_FALSE(found.escape_leap_m.has_value());
  EXPECT_GE(found.margin, 1.3);
  const RestsOn rests = what_it_rests_on(model, settings, found);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "hangs");
  EXPECT_EQ(rests.list[0].careful_value, "true");
  EXPECT_FALSE(rests.list[0].confirmed());
  EXPECT_TRUE(rests.explored) << rests.why_not;
}

INSTANTIATE_TEST_SUITE_P(Shapes, StandardFence,
                         testing::Values(std::pair{false, 35.0}, std::pair{false, 40.0},
                                         std::pair{false, 45.0}, std::pair{true, 35.0},
                                         std::pair{true, 40.0}, std::pair{true, 45.0}));

TEST(StandardFenceConfirmed, AKeepersWordTakesItsIfAway) {
  Site site = standard_yard(false, 40.0);
  site.confirmations.push_back({"hangs", "head keeper", "2026-05-01", "", {}});
  Settings settings;
  settings.resolution = 0.1;
  settings.remedies = false;
  const Model model = test::built(site);
  const RestsOn rests = what_it_rests_on(model, settings, analyse(model, settings));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_TRUE(rests.list[0].confirmed());
}

}  // namespace
}  // namespace hummock::leap

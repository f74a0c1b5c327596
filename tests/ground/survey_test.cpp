// What is said of a ground of any sort.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "tests/ground/survey_files.h"

namespace hummock {
namespace {

using geom::kDegree;

TEST_F(Survey, AGridTooLargeIsRefusedBeforeItIsMade) {
  Site site = test::yard(2000, 2000, 2.0);
  site.ground.cell = 0.05;
  EXPECT_SAYS(refusal(site), "1606 million nodes");
}

TEST_F(Survey, AFormCutByTheMarginIsSaid) {
  Site site = on_raster({});
  site.ground.raster.clear();
  site.ground.level = 0.0;
  GroundForm bank;
  bank.kind = FormKind::hollow;
  bank.at = {32.0, 15.0};
  bank.radius = 3.0;
  bank.height = 1.0;
  site.ground.forms.push_back(bank);
  const auto built = ground::build(site, {});
  ASSERT_EQ(built.notes.size(), 1U);
  EXPECT_SAYS(built.notes[0], "form 1 is cut by the margin");
}

TEST_F(Survey, GroundFarOutKeepsTheSlopeOfTheYard) {
  Site site = on_raster({});
  site.ground.raster.clear();
  site.ground.level = 100.0;
  GroundForm slope;
  slope.kind = FormKind::slope;
  slope.at = {10, 10};
  slope.angle = 12 * kDegree;
  site.ground.forms.push_back(slope);
  EXPECT_FALSE(ground::far_ground(site, {}));
  Surrounding barn;
  barn.outline = {{10, -40}, {20, -40}, {20, -34}, {10, -34}};
  site.surroundings.push_back(barn);
  const auto far = ground::far_ground(site, {});
  ASSERT_TRUE(far);
  EXPECT_NEAR(geom::height_at(far->ground, {15, -37}), 100 + 47 * std::tan(12 * kDegree), 1e-6);
}

}  // namespace
}  // namespace hummock

// Roof edges inside the fence.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double largest_of(const Site& site, const std::string& what) {
  double most = 0.0;
  for (const Opening& o : analyse(test::built(site)).list) {
    if (o.what == what) most = std::max(most, o.ball_m);
  }
  return most;
}

Site roofed_inside(double in, double above) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.roof = Roof{};
  site.roof->kind = SheetKind::mesh;
  site.roof->aperture = 0.025;
  site.roof->outline = Polygon{{in, in}, {10 - in, in}, {10 - in, 10 - in}, {in, 10 - in}};
  site.roof->above_fence = above;
  return site;
}

// From the fence's top to the roof's edge it is √(in² + above²) along a side.
TEST(RoofEdge, a_roof_inside_the_fence_and_above_it_is_open_by_both) {
  const double ball = largest_of(roofed_inside(0.04, 0.3), "roof edge");
  EXPECT_GE(ball, std::hypot(0.04, 0.3) - 1e-4);
  EXPECT_LE(ball, std::hypot(0.04 * std::sqrt(2.0), 0.3) + 1e-3);  // its corners
  EXPECT_FALSE(analyse(test::built(roofed_inside(0.04, 0.3))).met);
}

TEST(RoofEdge, however_little_it_stands_back) {
  for (const double in : {0.0004, 0.002, 0.01}) {
    EXPECT_NEAR(largest_of(roofed_inside(in, 0.3), "roof edge"), 0.3, 1e-3) << in;
  }
}

TEST(RoofEdge, below_the_fences_top_only_the_plan_gap_counts) {
  Site site = roofed_inside(0.04, 0.0);
  EXPECT_NEAR(largest_of(site, "roof edge"), 2.0 * 0.04 * std::sqrt(2.0) / (1.0 + std::sqrt(2.0)),
              3e-3);
}

}  // namespace
}  // namespace hummock::openings

// A drain hides nothing but its own opening.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double under_panels(const Site& site) {
  double most = 0.0;
  for (const Opening& o : analyse(test::built(site)).list) {
    if (o.what == "under panel") most = std::max(most, o.ball_m);
  }
  return most;
}

Drain drain_on(int edge, double from, double width, double sill) {
  Drain drain;
  drain.name = "ditch";
  drain.edge = edge;
  drain.from = from;
  drain.width = width;
  drain.height = 0.05;
  drain.sill = sill;
  drain.aperture = 0.02;
  return drain;
}

// Level panels of length L on a slope of one in ten leave wedges of L/10, whatever drains there
// are.
Site wedged(double panel) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  test::add_slope(site, {5.0, 5.0}, std::atan(0.1), 0.5 * geom::kPi);
  test::split_sections(site);
  site.boundary.sections[0].fit = Fit::stepped;
  site.boundary.sections[0].panel = panel;
  return site;
}

TEST(Drains, one_as_wide_as_the_fence_does_not_hide_the_wedge_below_it) {
  for (const double sill : {0.0, 0.3, 0.5}) {
    SCOPED_TRACE(sill);
    Site site = wedged(10.0);
    site.boundary.drains = {drain_on(0, 0.0, 10.0, sill)};
    EXPECT_NEAR(under_panels(site), 1.0, 1e-9);
    site = wedged(2.0);
    site.boundary.drains = {drain_on(0, 0.0, 10.0, sill)};
    EXPECT_NEAR(under_panels(site), 0.2, 1e-9);
  }
}

TEST(Drains, one_in_a_sheet_on_the_ground_leaves_no_gap_of_its_own) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.boundary.drains = {drain_on(0, 3.0, 1.5, 0.0)};
  EXPECT_EQ(under_panels(site), 0.0);
}

// The hollow lies under the slanting edge, beside the drain in the edge it meets at a sharp corner.
TEST(Drains, one_hides_nothing_of_another_edge) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  site.boundary.outline = {{0, 0}, {10, 0}, {10, 8}};
  site.boundary.sections[0].edges = {0, 1, 2};
  site.boundary.sections[0].fit = Fit::stepped;
  GroundForm hollow;
  hollow.kind = FormKind::hollow;
  hollow.at = {1.2, 0.96};
  hollow.radius = 0.45;
  hollow.height = 0.2;
  site.ground.forms = {hollow};
  const double without = under_panels(site);
  EXPECT_GT(without, 0.19);
  site.boundary.drains = {drain_on(0, 0.3, 1.9, 0.0)};
  EXPECT_EQ(under_panels(site), without);
}

}  // namespace
}  // namespace hummock::openings

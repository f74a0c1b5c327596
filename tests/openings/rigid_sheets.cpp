// Boards and glass do not follow a dip between their posts.
#include <gtest/gtest.h>

#include "engine/openings/openings.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double under_rigid_panels(const Site& site) {
  double most = 0.0;
  for (const Opening& o : analyse(test::built(site)).list) {
    if (o.what == "under panel") most = std::max(most, o.ball_m);
  }
  return most;
}

// A ditch across the middle of a 2 m panel, its ends level at the posts: open by its whole depth.
Site over_a_ditch(SheetKind kind) {
  Site site = test::yard(10.0, 10.0, 2.0, kind);
  GroundForm ditch;
  ditch.kind = FormKind::hollow;
  ditch.at = {5.0, 0.0};
  ditch.radius = 0.5;
  ditch.height = 0.25;
  site.ground.forms = {ditch};
  return site;
}

TEST(RigidSheets, boards_and_glass_are_open_over_a_ditch_by_its_depth) {
  EXPECT_NEAR(under_rigid_panels(over_a_ditch(SheetKind::solid)), 0.25, 1e-9);
  EXPECT_NEAR(under_rigid_panels(over_a_ditch(SheetKind::glass)), 0.25, 1e-9);
}

TEST(RigidSheets, netting_is_hung_down_into_it_and_a_wall_is_built_down_to_its_footing) {
  EXPECT_EQ(under_rigid_panels(over_a_ditch(SheetKind::mesh)), 0.0);
  Site site = over_a_ditch(SheetKind::solid);
  site.boundary.sections[0].footing = Footing{0.6, 0.3};
  EXPECT_EQ(under_rigid_panels(site), 0.0);
}

// A pool dug across the fence between two posts, which stand on its rims.
TEST(RigidSheets, a_pool_across_the_fence_is_open_to_its_bed) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  Water pool;
  pool.name = "pool";
  pool.outline = {{4, -1}, {6, -1}, {6, 1}, {4, 1}};
  pool.depth = 0.3;
  pool.side_slope = 60.0 * geom::kDegree;
  site.waters = {pool};
  EXPECT_NEAR(under_rigid_panels(site), 0.3, 1e-9);
}

// On a hump the sheet is cut to fit, and beside it, where the ground falls off again, it is open
// only as far as the ground lies below the line of the rails.
TEST(RigidSheets, on_a_hump_they_are_cut_to_fit) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  test::add_mound(site, {5.0, 0.0}, 0.7, 0.3);
  EXPECT_EQ(under_rigid_panels(site), 0.0);
}

TEST(RigidSheets, on_an_even_slope_they_leave_nothing) {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  test::add_slope(site, {5.0, 5.0}, 0.15, 0.5);
  EXPECT_EQ(under_rigid_panels(site), 0.0);
}

}  // namespace
}  // namespace hummock::openings

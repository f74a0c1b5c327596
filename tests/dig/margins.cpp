// Ground beyond a margin that is shorter than a tunnel.
#include <gtest/gtest.h>

#include "engine/dig/dig.h"
#include "engine/dig/wider_ground.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

// The ground falls away 0.3 m outside the fence, straight down over one cell, a skirt of 0.6 m.
Site bank(double margin) {
  Site site = test::yard(6.0, 5.0, 2.0);
  site.ground.margin = margin;
  site.boundary.sections[0].buried = 0.6;
  site.species.dig_depth.value = 1.0;
  site.species.dig_length.value = 1.5;
  GroundForm bench;
  bench.kind = FormKind::bench;
  bench.outline = {{-4, -4}, {10, -4}, {10, -0.3}, {-4, -0.3}};
  bench.level = -2.0;
  site.ground.forms = {bench};
  return site;
}

TEST(Margins, ground_that_is_cut_off_by_a_short_margin_is_looked_at_all_the_same) {
  const Result wide = analyse(test::built(bank(3.0)));
  EXPECT_NEAR(wide.least_length_m, 0.6 + 0.25, 0.06);  // down, and out of the bank's face
  for (const double margin : {0.0, 0.1, 0.25, 1.0}) {
    SCOPED_TRACE(margin);
    const Result narrow = analyse(test::built(bank(margin)));
    EXPECT_NEAR(narrow.least_length_m, wide.least_length_m, 0.06);
    EXPECT_FALSE(narrow.met);
  }
}

TEST(Margins, what_is_modelled_stays_and_snow_and_scour_go_on_beyond_it) {
  const BuildOptions options{.snow = 0.3, .growth = 0.0, .scour = 0.2};
  const Model near = test::built(bank(0.5), options);
  const std::optional<Model> wide = on_wider_ground(near);
  ASSERT_TRUE(wide);
  const Model far = test::built(bank(1.5), options);
  EXPECT_EQ(wide->ground.grid.nx, far.ground.grid.nx);
  for (double x = -1.4; x < 7.4; x += 0.13) {
    for (double y = -1.4; y < 6.4; y += 0.13) {
      const Vec2 p{x, y};
      EXPECT_NEAR(geom::height_at(wide->ground, p), geom::height_at(far.ground, p), 1e-6);
      if (geom::covers(near.ground, p)) {
        EXPECT_NEAR(geom::height_at(wide->ground, p), geom::height_at(near.ground, p), 1e-9);
      }
    }
  }
}

TEST(Margins, a_margin_that_is_wide_enough_is_left_alone) {
  EXPECT_FALSE(on_wider_ground(test::built(bank(1.5))));
  Site site = bank(0.0);
  site.species.dig_depth.value = 0.0;
  EXPECT_FALSE(on_wider_ground(test::built(site)));  // it does not dig
  site.requirements.push_back({});
  site.requirements.back().what = "dig.least_length_m";
  site.requirements.back().at_least = 1.2;
  EXPECT_TRUE(on_wider_ground(test::built(site)));
}

}  // namespace
}  // namespace hummock::dig

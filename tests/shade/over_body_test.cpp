// Shade over the whole of an animal.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/shade/day/lying_places.h"
#include "engine/shade/shade.h"
#include "engine/usable/usable_area.h"
#include "geometry/plan/polygon.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

constexpr double kTall = 0.4;  // m, the animal

Model open_yard() {
  Model m = yard(0, 0, 10, 10, 0.05, {}, 1.0);
  m.site.species.body.value = {0.5, 0.2, kTall};
  m.site.animals = 1;
  return m;
}

Day day_of(const Model& m) {
  Settings settings;
  settings.step_minutes = 30;
  return analyse(m, settings);
}

Part& add_leaves(Model& m, Vec3 lo, Vec3 hi, double density) {
  Part& p = add_part(m, "leaves", PartKind::planting, box_mesh(lo, hi));
  p.leaf_density = density;
  p.blocks_body = false;
  return p;
}

TEST(OverBody, litter_and_grass_below_its_back_shade_no_animal) {
  for (const double height : {0.05, 0.3, 0.4}) {
    Model m = open_yard();
    add_leaves(m, {2, 2, 0}, {8, 8, height}, 1000.0);
    EXPECT_EQ(day_of(m).hottest_shade_m2_per_animal, 0.0) << height;
  }
}

// Through a planting of height h the way from its back is the (h − 0.4)/h of the way from the
// ground. T = exp(−½ a l) below a half at the sun's height e asks a (h − 0.4) / sin e > 2 ln 2.
TEST(OverBody, tall_grass_shades_by_what_stands_over_its_back) {
  Model m = open_yard();
  add_leaves(m, {2, 2, 0}, {8, 8, 0.9}, 2.4);  // 2.4 · 0.5 = 1.2 < 2 ln 2 · sin 62°, 2.16 is not
  EXPECT_EQ(day_of(m).hottest_shade_m2_per_animal, 0.0);
  m.parts.back().leaf_density = 4.0;  // 2.0 > 2 ln 2
  EXPECT_GT(day_of(m).hottest_shade_m2_per_animal, 30.0);
}

// A wall along east and west of height H at the sun's height e due south: its shadow is
// H cot e wide on the ground, (H − 0.4) cot e at the back of the animal.
TEST(OverBody, a_wall_shades_it_as_wide_as_at_its_back) {
  Model m = open_yard();
  add_solid(m, "wall", box_mesh({1, 4.9, 0}, {9, 5.0, 2.0}));
  const Day day = day_of(m);
  const auto noon = std::max_element(day.times.begin(), day.times.end(),
                                     [](auto& a, auto& b) { return a.elevation < b.elevation; });
  const auto k = static_cast<std::size_t>(noon - day.times.begin());
  const double run = 1.0 / std::tan(noon->elevation) * -std::cos(noon->azimuth);
  // Of the yard less a body's width all round.
  EXPECT_NEAR(day.shaded_share[k] * 9.6 * 9.6, 8.0 * (2.0 - kTall) * run, 8.0 * 0.06 + 0.3);
}

TEST(OverBody, a_kerb_shades_no_animal_and_a_low_roof_does) {
  Model kerb = open_yard();
  add_solid(kerb, "kerb", box_mesh({1, 4, 0}, {9, 6, 0.3}));
  Settings winter;
  winter.date = {2026, 12, 21};
  winter.step_minutes = 30;
  EXPECT_EQ(analyse(kerb, winter).hottest_shade_m2_per_animal, 0.0);
  Model roof = open_yard();
  add_part(roof, "roof", PartKind::roof, box_mesh({2, 2, kTall + 0.01}, {8, 8, kTall + 0.05}));
  EXPECT_GT(day_of(roof).hottest_shade_m2_per_animal, 28.0);
}

// The light of one animal's day, asked again for a larger one: what the whole
// analysis says of it, to the last bit.
TEST(AnotherBody, has_the_figures_of_its_own_analysis) {
  Model m = open_yard();
  add_solid(m, "wall", box_mesh({1, 4.9, 0}, {9, 5.0, 2.0}));
  add_leaves(m, {2, 6, 0}, {8, 8, 0.9}, 3.0).bare = Season{{7, 1}, {10, 1}};
  Settings settings;
  settings.step_minutes = 30;
  settings.hot_days = {{2026, 7, 15}};
  const Day known = analyse(m, settings);
  m.site.species.body.value = {0.9, 0.3, 0.7};
  const Day whole = analyse(m, settings);
  const Day again = with_another_body(m, settings, known);
  ASSERT_NE(whole.hottest_shade_m2_per_animal, known.hottest_shade_m2_per_animal);
  EXPECT_EQ(again.hottest_shade_m2_per_animal, whole.hottest_shade_m2_per_animal);
  EXPECT_EQ(hottest_in_words(again), hottest_in_words(whole));
  EXPECT_EQ(again.shaded_share, whole.shaded_share);
  EXPECT_EQ(again.shaded_m2_per_animal, whole.shaded_m2_per_animal);
  ASSERT_EQ(again.hot_days.size(), 1U);
  EXPECT_EQ(again.hot_days[0].shade_m2_per_animal, whole.hot_days[0].shade_m2_per_animal);
  EXPECT_EQ(again.sun_hours_min, whole.sun_hours_min);
  EXPECT_EQ(again.sun_hours_mean, whole.sun_hours_mean);
  EXPECT_EQ(again.sun_hours_max, whole.sun_hours_max);
  EXPECT_EQ(again.sunniest.at.x, whole.sunniest.at.x);
  EXPECT_EQ(again.irradiation_mean_kwh_m2, whole.irradiation_mean_kwh_m2);
  EXPECT_EQ(again.sky_view_mean, whole.sky_view_mean);
  const Day at_noon = with_another_body(m, settings, known, Steps::hot);
  EXPECT_EQ(at_noon.hottest_shade_m2_per_animal, whole.hottest_shade_m2_per_animal);
  EXPECT_EQ(hottest_in_words(at_noon), hottest_in_words(whole));
  EXPECT_EQ(at_noon.sun_hours_max, whole.sun_hours_max);
}

// Against the distance of each from the outline.
TEST(LyingPlaces, are_a_body_s_width_from_the_outline_and_no_fewer) {
  Model m = yard(0, 0, 22, 14, 0.1);
  m.outline = {{0.3, 0.1}, {21.7, 1.3}, {20.9, 13.8}, {9.4, 12.1}, {8.8, 6.7}, {1.2, 7.7}};
  m.site.species.body.value = {0.9, 0.45, 0.5};
  const geom::Grid& grid = m.ground.grid;
  const usable::UsableGround ground(m);
  const usable::Nodes nodes = usable::find_nodes(m, ground);
  const LyingPlaces lying = lying_places(m, grid);
  double places = 0, off_the_line = 0, far = 0;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      const std::size_t n = grid.index(i, j);
      const double off = geom::distance_to_edges(m.outline, grid.node(i, j));
      const bool lies = nodes.live[n] != 0 && off >= lying.body_width;
      ASSERT_EQ(lying.node[n] != 0, lies) << i << " " << j;
      places += lies ? 1 : 0;
      off_the_line += nodes.live[n] != 0 && off >= 1e-6 ? 1 : 0;
      far += lies && off > 3.0 ? 1 : 0;
    }
  EXPECT_GT(far, 1000.0);  // in blocks that are passed over
  EXPECT_EQ(lying.area_m2, usable::living_area(m, ground, nodes) * places / off_the_line);
}

}  // namespace
}  // namespace hummock::shade

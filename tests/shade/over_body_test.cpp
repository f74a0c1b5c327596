// Shade over the whole of an animal.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/shade/shade.h"
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

}  // namespace
}  // namespace hummock::shade

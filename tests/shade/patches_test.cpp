// Shade for an animal: patches its body fits.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/day/shade_patches.h"
#include "engine/shade/shade.h"
#include "engine/usable/body_patches.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// Against the definition, node by node: random blots and specks on grids that end within a word.
TEST(ShadePatches, are_those_of_the_definition_to_the_node) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int trial = 0; trial < 60; ++trial) {
    const geom::Grid grid{0, 0, 0.05 + 0.1 * share(random), 40 + trial * 5, 33 + trial};
    const double length = 0.2 + share(random), width = 0.5 * length * share(random);
    std::vector<std::uint8_t> standing(grid.size(), 0);
    const double a = 0.1 + 0.4 * share(random), b = 0.1 + 0.4 * share(random);
    const double bias = share(random) - 0.3, specks = 0.05 * share(random);
    ShadePatches patches(grid, length, width);
    NodeBits bits = patches.none();
    for (int j = 0; j < grid.ny; ++j)
      for (int i = 0; i < grid.nx; ++i) {
        const bool on = std::sin(a * i + 0.3 * trial) * std::cos(b * j) < bias;
        if (on == (share(random) < specks)) continue;
        standing[grid.index(i, j)] = 1;
        bits.row(j)[i / 64] |= std::uint64_t{1} << (i % 64);
      }
    const std::vector<std::uint8_t> expected = usable::body_patches(grid, standing, length, width);
    const NodeBits found = patches.fitting(bits);
    std::size_t count = 0;
    for (int j = 0; j < grid.ny; ++j)
      for (int i = 0; i < grid.nx; ++i) {
        count += expected[grid.index(i, j)];
        ASSERT_EQ(found.row(j)[i / 64] >> (i % 64) & 1U, expected[grid.index(i, j)])
            << "trial " << trial << " node " << i << " " << j;
      }
    EXPECT_EQ(found.count(), count);
  }
}

// Forty slats of 10 cm with 10 cm between them shade half of the ground under them; no animal 60 cm
// long and 30 cm wide lies in a stripe. A roof of the same shade in one piece shades it.
TEST(ShadeDay, counts_no_stripes_narrower_than_the_animal_as_its_shade) {
  Model slats = yard(0, 0, 10, 10, 0.05, {}, 1.0);
  slats.site.species.body.value = {0.6, 0.3, 0.3};
  Model roof = slats;
  for (int k = 0; k < 40; ++k)
    add_part(slats, "slat", PartKind::roof,
             box_mesh({1.0 + 0.2 * k, 1, 1.0}, {1.1 + 0.2 * k, 9, 1.02}));
  add_part(roof, "roof", PartKind::roof, box_mesh({1, 1, 1.0}, {5, 9, 1.02}));
  Settings settings;
  settings.step_minutes = 30;
  const Day striped = analyse(slats, settings), whole = analyse(roof, settings);
  const auto noon = [](const Day& d) {
    return static_cast<std::size_t>(std::find(d.time_labels.begin(), d.time_labels.end(), "13:00") -
                                    d.time_labels.begin());
  };
  const std::size_t k = noon(striped);
  EXPECT_NEAR(striped.shaded_share[k], whole.shaded_share[k], 0.03);
  EXPECT_LT(striped.hottest_shade_m2_per_animal, 0.01);
  EXPECT_GT(whole.hottest_shade_m2_per_animal, 9.0);
}

// A strip as wide as the body along the fence is no place to lie: 10 × 10 m less 0.3 m all round is
// 9.4² m², known to a cell's width along it.
TEST(ShadeDay, counts_no_ground_within_a_body_of_the_fence) {
  Model m = yard(0, 0, 10, 10, 0.05, {}, 1.0);
  m.site.species.body.value = {0.6, 0.3, 0.3};
  m.site.place->latitude = 78.2 * geom::kDegree;
  Settings settings;
  settings.date = {2026, 12, 21};  // no sun: all of it is shade
  EXPECT_NEAR(analyse(m, settings).hottest_shade_m2_per_animal, 9.4 * 9.4 / 3.0,
              4 * 9.4 * 0.05 / 3.0);
}

}  // namespace
}  // namespace hummock::shade

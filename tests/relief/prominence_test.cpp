// Rises and their prominence: pictures, closed forms and a brute-force witness.
#include "geometry/terrain/prominence.h"

#include <gtest/gtest.h>

#include <queue>
#include <random>

#include "engine/relief/relief.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::Grid;
using geom::Rise;

// A line of heights as a grid three nodes wide, walled in by deep ground.
std::vector<Rise> rises_along(const std::vector<double>& line, double least) {
  const Grid grid{0, 0, 1, static_cast<int>(line.size()), 3};
  std::vector<double> z(grid.size(), -100.0);
  std::copy(line.begin(), line.end(), z.begin() + grid.nx);
  return geom::rises(grid, z, std::vector<std::uint8_t>(grid.size(), 1), least);
}

TEST(Rises, OfALineAreItsTopsAbovePasses) {
  const auto found = rises_along({-100, 0, 3, 1, 5, 2, 2.5, -100}, 0.1);
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].i, 4);
  EXPECT_DOUBLE_EQ(found[0].prominence, 105);
  EXPECT_EQ(found[1].i, 2);
  EXPECT_DOUBLE_EQ(found[1].prominence, 2);
  EXPECT_EQ(found[2].i, 6);
  EXPECT_DOUBLE_EQ(found[2].prominence, 0.5);
}

TEST(Rises, BelowTheLeastAreNotCounted) {
  EXPECT_EQ(rises_along({-100, 0, 3, 1, 5, 2, 2.5, -100}, 1.0).size(), 2U);
}

TEST(Rises, APlateauIsOne) {
  EXPECT_EQ(rises_along({-100, 2, 2, 2, 2, -100}, 0.1).size(), 1U);
}

// Highest level at which the way from `from` reaches higher ground or the border: the definition,
// by a widest-path search from each node alone.
double key_pass(const Grid& grid, const std::vector<double>& z,
                const std::vector<std::uint8_t>& chosen, int i0, int j0) {
  const std::array<std::array<int, 2>, 6> ways{
      {{1, 0}, {0, 1}, {-1, 1}, {-1, 0}, {0, -1}, {1, -1}}};
  const auto start = grid.index(i0, j0);
  std::vector<double> best(grid.size(), -1e300);
  std::priority_queue<std::pair<double, std::size_t>> queue;
  best[start] = z[start];
  queue.push({z[start], start});
  while (!queue.empty()) {
    const auto [level, at] = queue.top();
    queue.pop();
    if (level < best[at]) continue;
    if (z[at] > z[start] || (z[at] == z[start] && at < start)) return level;
    const int i = static_cast<int>(at) % grid.nx;
    const int j = static_cast<int>(at) / grid.nx;
    for (const auto& [di, dj] : ways) {
      if (!grid.holds(i + di, j + dj) || chosen[grid.index(i + di, j + dj)] == 0) return level;
    }
    for (const auto& [di, dj] : ways) {
      const auto n = grid.index(i + di, j + dj);
      const double reach = std::min(level, z[n]);
      if (reach <= best[n]) continue;
      best[n] = reach;
      queue.push({reach, n});
    }
  }
  return -1e300;
}

TEST(Rises, EqualTheDefinitionOnRandomGrounds) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    std::mt19937 random(seed);
    const Grid grid{0, 0, 1, 13, 11};
    std::vector<double> z(grid.size());
    std::vector<std::uint8_t> chosen(grid.size());
    // Few distinct heights: many ties.
    for (double& v : z) v = static_cast<double>(random() % (seed % 2 == 0 ? 5 : 1000));
    for (auto& c : chosen) c = random() % 20 != 0;
    for (const geom::Way way : {geom::Way::up, geom::Way::down}) {
      std::vector<double> upright = z;
      if (way == geom::Way::down)
        for (double& v : upright) v = -v;
      std::vector<double> found(grid.size(), 0.0);
      for (const Rise& r : geom::rises(grid, z, chosen, 0.5, way))
        found[grid.index(r.i, r.j)] = r.prominence;
      for (int j = 0; j < grid.ny; ++j)
        for (int i = 0; i < grid.nx; ++i) {
          const auto at = grid.index(i, j);
          if (chosen[at] == 0) continue;
          EXPECT_EQ(found[at], upright[at] - key_pass(grid, upright, chosen, i, j));
        }
    }
  }
}

// Two raised cosines on the level and a hollow: heights are their prominences.
TEST(Relief, CountsMoundsAndHollowsOnALevelGround) {
  const auto mound = [](double x, double y, double x0, double y0, double r, double h) {
    const double d = std::hypot(x - x0, y - y0);
    return d < r ? h * (1 + std::cos(geom::kPi * d / r)) / 2 : 0.0;
  };
  const auto f = [&](double x, double y) {
    return 5.0 + mound(x, y, 3, 3, 2, 0.9) + mound(x, y, 8, 3, 1.5, 0.4) -
           mound(x, y, 6, 7, 2, 0.6) + mound(x, y, 11, 8, 1, 0.05);
  };
  const auto r = relief::analyse(tests::bare_model(tests::surface({-1, -1}, {13, 11}, 0.1, f),
                                                   tests::rectangle(0, 0, 12, 10)));
  ASSERT_EQ(r.rises.size(), 2U);
  EXPECT_NEAR(r.rises[0].prominence_m, 0.9, 1e-9);
  EXPECT_NEAR(r.rises[0].at.x, 3, 1e-9);
  EXPECT_NEAR(r.rises[0].height_m, 5.9, 1e-9);
  EXPECT_NEAR(r.rises[1].prominence_m, 0.4, 1e-9);
  ASSERT_EQ(r.hollows.size(), 1U);
  EXPECT_NEAR(r.hollows[0].prominence_m, 0.6, 1e-9);
  EXPECT_NEAR(r.hollows[0].height_m, 4.4, 1e-9);
}

// Half the mound beyond the fence: only what stands above its flank on the fence line counts.
TEST(Relief, CountsAMoundCutByTheFenceAboveItsFoot) {
  const auto f = [](double x, double) { return std::max(0.0, 1.0 - std::abs(x - 3.0)); };
  const auto r = relief::analyse(
      tests::bare_model(tests::surface({-1, -1}, {9, 9}, 0.5, f), tests::rectangle(0, 0, 8, 8)));
  EXPECT_TRUE(r.rises.empty()) << "a ridge that runs out through the fence is no rise";
}

}  // namespace
}  // namespace hummock

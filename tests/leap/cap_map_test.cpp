#include "engine/leap/search/cap_map.h"

#include <gtest/gtest.h>

#include <random>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

TEST(CapMap, TheEnvelopeEqualsBruteForceOnRandomCases) {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> at(-3.0, 9.0), high(0.0, 4.0), leap(0.2, 3.0);
    std::uniform_int_distribution<int> many(1, 120), nodes(1, 60);
    const geom::Grid grid{-1.0, 0.5, 0.13, nodes(random), nodes(random)};
    std::vector<geom::Vec3> points(static_cast<std::size_t>(many(random)));
    for (auto& p : points) p = {at(random), at(random), high(random)};
    points.push_back({points[0].x, at(random), high(random)});  // two on one abscissa
    const double H = leap(random);
    const double s = leap(random);
    const auto cap = lower_envelope(grid, points, H, s);
    for (int j = 0; j < grid.ny; ++j) {
      for (int i = 0; i < grid.nx; ++i) {
        double best = 1e300;
        for (const auto& b : points) {
          const double r = distance(xy(b), grid.node(i, j));
          best = std::min(best, b.z - H + s * s * r * r / (4.0 * H));
        }
        ASSERT_NEAR(cap[grid.index(i, j)], best, 1e-9);
      }
    }
  }
}

TEST(CapMap, StandingAtTheCapTheBarrierIsJustWithinReach) {
  Site site = test::yard(6, 5, 1.6);
  const Model model = test::built(site);
  const geom::Raster cap = height_cap(model, 1.2);
  const double H = 1.2 * 0.7;
  for (int j = 0; j < cap.grid.ny; j += 7) {
    for (int i = 0; i < cap.grid.nx; i += 7) {
      const geom::Vec2 p = cap.grid.node(i, j);
      if (std::isnan(cap.at(i, j))) continue;
      const double r = geom::distance_to_edges(model.outline, p);
      // A straight wall 1.6 m high: the nearest point of its top rules.
      EXPECT_NEAR(effort(r, 1.6 - static_cast<double>(cap.at(i, j)), 1.0), H, 1e-3);
      EXPECT_LE(cap.at(i, j), 1.6 - H + r * r / (4 * H) + 1e-6);
    }
  }
}

// Farther than its level gap an animal that leaps short falls as a plain throw does.
TEST(CapMap, AShortLeaperIsHeldLowerBeyondItsGap) {
  Site site = test::yard(12, 12, 1.5);
  site.species = test::test_animal(1.0, 1.0);
  const Model model = test::built(site);
  const geom::Raster cap = height_cap(model);
  const auto at = [&](double x, double y) {
    return static_cast<double>(
        cap.at(static_cast<int>(std::lround((x - cap.grid.x0) / cap.grid.cell)),
               static_cast<int>(std::lround((y - cap.grid.y0) / cap.grid.cell))));
  };
  for (const double r : {0.5, 1.5, 2.5, 3.5}) {
    const double stretched = r * r - 1.0;    // s = 2, H = 1: r²s²/(4H) − H
    const double plain = 0.5 * r * r - 0.5;  // E = D/2: r²/(4E) − E
    EXPECT_NEAR(at(6.0, r), 1.5 + std::min(stretched, plain), 2e-3) << r;
  }
}

TEST(CapMap, ATallerFenceNeverLowersTheCap) {
  const geom::Raster low = height_cap(test::built(test::yard(6, 5, 1.6)));
  const geom::Raster high = height_cap(test::built(test::yard(6, 5, 2.0)));
  for (std::size_t k = 0; k < low.values.size(); ++k) {
    if (std::isnan(low.values[k])) continue;
    EXPECT_NEAR(high.values[k] - low.values[k], 0.4, 1e-5);
  }
}

}  // namespace
}  // namespace hummock::leap

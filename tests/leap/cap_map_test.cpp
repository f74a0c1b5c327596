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

double cap_at(const geom::Raster& cap, double x, double y) {
  return static_cast<double>(
      cap.at(static_cast<int>(std::lround((x - cap.grid.x0) / cap.grid.cell)),
             static_cast<int>(std::lround((y - cap.grid.y0) / cap.grid.cell))));
}

// Leaps 1.0 m; a fence of 2.0 m, and 0.4 m before it a pole of 1.7 m that it cannot gain, 0.2 m
// thick: from its top e(0.3, 0.3) = 0.36 over the fence.
Site yard_with_a_pole(double from_fence) {
  Site site = test::yard(6, 5, 2.0, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  site.species.grip.value = 0.0;
  test::add_post(site, "pole", {3.0, from_fence}, 0.2, 1.7);
  return site;
}

TEST(CapMap, BesideAPoleItIsWhatGainsThePolesTop) {
  Site site = yard_with_a_pole(0.4);
  const Model model = test::built(site);
  ASSERT_GE(analyse(model).margin, 1.0);
  const geom::Raster cap = height_cap(model);
  for (const double off : {0.5, 1.0, 1.5}) {
    const double r = off - 0.1;  // to the pole's rim, e(r, z) = 1 at z = 1 - r²/4
    const double by_the_pole = 1.7 - 1.0 + r * r / 4.0;
    const double by_the_fence = 2.0 - 1.0 + (0.4 + off) * (0.4 + off) / 4.0;
    ASSERT_LT(by_the_pole, by_the_fence);
    EXPECT_LE(cap_at(cap, 3.0, 0.4 + off), by_the_pole + 1e-6) << off;
    EXPECT_GE(cap_at(cap, 3.0, 0.4 + off), by_the_pole - 0.06) << off;  // a piece's size
  }
}

// What the map allows is checked with a crate put there, on the spot and everywhere near.
TEST(CapMap, ACrateBelowItLeadsNowhereAndOneAboveItOut) {
  const geom::Raster cap = height_cap(test::built(yard_with_a_pole(0.4)));
  for (const double y : {0.9, 1.3}) {
    for (const bool above : {false, true}) {
      // The crate is 0.2 m wide: its nearest edge counts, 0.1 m nearer than the node.
      const double allowed = std::min(cap_at(cap, 3.0, y - 0.1), cap_at(cap, 3.0, y));
      Site site = yard_with_a_pole(0.4);
      test::add_box(site, "crate", {3.0, y}, {0.2, 0.2, allowed + (above ? 0.1 : -0.02)});
      EXPECT_EQ(analyse(test::built(site)).margin <= 1.0, above) << y << " " << allowed;
    }
  }
}

TEST(CapMap, APoleThatLeadsNowhereLeavesItAsItWas) {
  const geom::Raster with = height_cap(test::built(yard_with_a_pole(2.5)));
  Site bare = yard_with_a_pole(2.5);
  bare.objects.clear();
  const geom::Raster without = height_cap(test::built(bare));
  for (std::size_t k = 0; k < with.values.size(); ++k) {
    if (!std::isnan(with.values[k])) {
      EXPECT_NEAR(with.values[k], without.values[k], 1e-5);
    }
  }
}

// A body of 1.5 m that leaps 0.3 m: the edge is reached before it is leapt to.
TEST(CapMap, WhereTheReachIsLongerThanTheLeapItRules) {
  Site site = test::yard(6, 5, 2.0, SheetKind::solid);
  site.species = test::test_animal(0.3, 0.6);
  site.species.grip.value = 0.0;
  site.species.reach->value = 1.5;
  const geom::Raster cap = height_cap(test::built(site));
  for (const double r : {0.3, 0.8, 1.2}) {
    EXPECT_LE(cap_at(cap, 3.0, r), 2.0 - std::sqrt(1.5 * 1.5 - r * r) + 1e-6) << r;
    EXPECT_GE(cap_at(cap, 3.0, r), 2.0 - std::sqrt(1.6 * 1.6 - r * r) - 1e-6) << r;
  }
}

}  // namespace
}  // namespace hummock::leap

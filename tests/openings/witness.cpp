// Random yards: the exact gaps against dense samples of the definition, and turns of the site.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/openings/openings.h"
#include "engine/openings/roof_gaps.h"
#include "geometry/plan/polygon.h"
#include "geometry/terrain/heightfield.h"
#include "tests/support/yard.h"

namespace hummock::openings {
namespace {

double uniform(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

Site random_site(std::mt19937_64& random) {
  Site site = test::yard(6.0, 5.0, 2.0);
  site.ground.cell = 0.25;
  test::split_sections(site);
  for (Section& s : site.boundary.sections) {
    s.fit = Fit::stepped;
    s.panel = uniform(random, 1.0, 2.6);
  }
  test::add_slope(site, {3.0, 2.5}, uniform(random, 0.0, 0.2), uniform(random, 0.0, 6.28));
  for (int k = 0; k < 5; ++k) {
    test::add_mound(site, {uniform(random, 0, 6), uniform(random, 0, 5)}, uniform(random, 0.5, 2.0),
                    uniform(random, 0.05, 0.4));
  }
  Gate& gate = test::add_gate(site, static_cast<int>(random() % 4), 1.5, 1.1, 1.8);
  gate.under_gap = uniform(random, 0.0, 0.06);
  return site;
}

// Every millimetre along every panel and leaf.
std::vector<double> sampled_gaps(const Model& model) {
  std::vector<double> gaps;
  const auto sample = [&](Vec2 a, Vec2 b, double foot_a, double foot_b) {
    double most = 0.0;
    const int n = static_cast<int>(1000.0 * geom::distance(a, b));
    for (int k = 0; k <= n; ++k) {
      const double t = static_cast<double>(k) / n;
      most = std::max(
          most, foot_a + (foot_b - foot_a) * t - geom::height_at(model.ground, lerp(a, b, t)));
    }
    if (most >= kLeastListed) gaps.push_back(most);
  };
  for (const Panel& p : model.panels) {
    if (p.gate < 0) sample(p.a, p.b, p.foot_a, p.foot_b);
  }
  for (const Gateway& g : model.gateways) sample(g.a, g.b, g.leaf_foot, g.leaf_foot);
  std::sort(gaps.begin(), gaps.end());
  return gaps;
}

TEST(OpeningsWitness, gaps_under_stepped_panels_are_those_of_every_millimetre) {
  const std::uint64_t seed = 1969;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 12; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Model model = test::built(random_site(random));
    std::vector<double> exact;
    for (const Opening& o : analyse(model).list) {
      if (o.what != "under panel" && o.what != "under gate") continue;
      exact.push_back(o.ball_m);
      EXPECT_LE(o.rigid_ball_m, o.ball_m + 1e-9);
    }
    std::sort(exact.begin(), exact.end());
    const std::vector<double> slow = sampled_gaps(model);
    ASSERT_EQ(exact.size(), slow.size());
    for (std::size_t k = 0; k < exact.size(); ++k) {
      EXPECT_GE(exact[k], slow[k] - 1e-9);
      EXPECT_LE(exact[k], slow[k] + 1e-3);  // a slope under 45° moves less than that in 1 mm
    }
  }
}

TEST(OpeningsWitness, the_circle_between_two_outlines_is_that_of_a_fine_grid) {
  const std::uint64_t seed = 3;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 20; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Polygon outer, inner;
    for (int k = 0; k < 7; ++k) {
      const double t = 2.0 * geom::kPi * k / 7.0;
      const Vec2 d{std::cos(t), std::sin(t)};
      outer.push_back(d * uniform(random, 3.0, 5.0));
      inner.push_back(d * uniform(random, 1.0, 2.5));
    }
    const double h = 0.02;
    double slow = 0.0;
    for (double x = -5; x < 5; x += h) {
      for (double y = -5; y < 5; y += h) {
        const Vec2 p{x, y};
        if (!geom::contains(outer, p) || geom::contains(inner, p)) continue;
        slow = std::max(
            slow, std::min(geom::distance_to_edges(outer, p), geom::distance_to_edges(inner, p)));
      }
    }
    const double exact = largest_circle_between(outer, {inner}, 1e-4).radius;
    EXPECT_GE(exact, slow - 1e-4);
    EXPECT_LE(exact, slow + h);
  }
}

TEST(OpeningsWitness, winding_the_outline_the_other_way_changes_nothing) {
  const std::uint64_t seed = 21;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 4; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Site site = random_site(random);
    site.boundary.gates.clear();
    for (Section& s : site.boundary.sections) s.panel = 2.0;
    Site other = site;
    std::reverse(other.boundary.outline.begin(), other.boundary.outline.end());
    const Result p = analyse(test::built(site)), q = analyse(test::built(other));
    ASSERT_EQ(p.list.size(), q.list.size());
    for (std::size_t k = 0; k < p.list.size(); ++k) {
      EXPECT_NEAR(p.list[k].ball_m, q.list[k].ball_m, 1e-9);
    }
  }
}

}  // namespace
}  // namespace hummock::openings

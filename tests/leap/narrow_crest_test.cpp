// Tops as wide as the perch are places, narrower ones are none: widths on paper, at every turn.
#include "engine/leap/places/narrow_crest.h"

#include <gtest/gtest.h>

#include <random>

#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kPerch = 0.13, kTop = 0.8;
constexpr double kSlope = 40.0 * geom::kDegree;

// Some point of a top at (3, 3), `off` along the turn.
bool bears(const Site& site, double turn, double off) {
  const Model model = test::built(site);
  return wide_enough(model, {3.0 + off * std::cos(turn), 3.0 + off * std::sin(turn), kTop}, kPerch,
                     kSlope);
}

TEST(NarrowCrest, ARailBearsFromThePerchOnAtEveryTurn) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> turns(0.0, geom::kPi), across(-0.45, 0.45);
  for (int k = 0; k < 60; ++k) {
    const double turn = turns(random);
    for (const double share : {0.5, 0.75, 0.95, 1.0, 1.2, 3.0}) {
      Site site = test::yard(6, 6, 2.0);
      test::add_box(site, "rail", {3, 3}, {2.0, share * kPerch, kTop}).turn = turn;
      const double off = across(random) * share * kPerch;
      EXPECT_EQ(bears(site, turn + 0.5 * geom::kPi, off), share >= 1.0)
          << share << " of the perch, turned " << turn / geom::kDegree << ", " << off << " aside";
    }
  }
}

// Posts are drawn with corners: their least width is some per cent below the diameter.
TEST(NarrowCrest, ARoundTopBearsWhereItIsAsWideThroughItsMiddle) {
  for (const double off : {0.0, 0.3, 0.45}) {
    Site narrow = test::yard(6, 6, 2.0), wide = narrow;
    test::add_post(narrow, "post", {3, 3}, 0.9 * kPerch, kTop);
    test::add_post(wide, "post", {3, 3}, 1.1 * kPerch, kTop);
    EXPECT_FALSE(bears(narrow, 0.4, off * 0.9 * kPerch)) << off;
    EXPECT_TRUE(bears(wide, 0.4, off * kPerch)) << off;
  }
}

TEST(NarrowCrest, SlatsBearTogetherAndARailBearsBesideAWall) {
  Site bench = test::yard(6, 6, 2.0);
  test::add_box(bench, "front", {3.0, 3.0}, {2.0, 0.05, kTop});
  test::add_box(bench, "back", {3.0, 3.1}, {2.0, 0.05, kTop});
  EXPECT_TRUE(bears(bench, 0.0, 0.0));
  Site beside = test::yard(6, 6, 2.0);
  test::add_box(beside, "rail", {3.0, 3.0}, {2.0, 0.05, kTop});
  EXPECT_FALSE(bears(beside, 0.0, 0.0));
  test::add_box(beside, "wall", {3.0, 3.1}, {2.0, 0.1, 2.0});
  EXPECT_TRUE(bears(beside, 0.0, 0.0));
}

}  // namespace
}  // namespace hummock::leap

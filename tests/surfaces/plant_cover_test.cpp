// Cover of plants by height and season, against what a planting of cover c and height H passes over
// a way L: (1 - c)^(L/H) (engine/sight/sight.h), and bare (1 - c)^(0.29 L/H).
#include <gtest/gtest.h>

#include <cmath>

#include "engine/surfaces/surfaces.h"
#include "tests/surfaces/small_yards.h"

namespace hummock {
namespace {

using test::add_planting;
using test::rectangle;

constexpr double kClose = 1e-9;

surfaces::Plants plants_of(const Site& site, const BuildOptions& options = {}) {
  return surfaces::analyse(test::built(site, options)).plants;
}

TEST(PlantCover, OfOnePlantingByBands) {
  Site site = test::yard(10, 8, 2.0);
  const double c = 0.7, h = 2.5, share = 16.0 / 80.0;
  add_planting(site, rectangle({1, 1}, {5, 5}), h, c);
  const surfaces::Plants p = plants_of(site);
  EXPECT_NEAR(p.planted_share, share, kClose);
  EXPECT_NEAR(p.in_leaf.all, share * c, kClose);
  const double ways[] = {0.3, 0.7, 1.0, 0.5};
  for (std::size_t b = 0; b < 4; ++b)
    EXPECT_NEAR(p.in_leaf.bands[b], share * (1.0 - std::pow(1.0 - c, ways[b] / h)), kClose) << b;
  EXPECT_EQ(p.bare.all, p.in_leaf.all) << "it never falls bare";
}

TEST(PlantCover, LeavesDownLeaveTheTwigs) {
  Site site = test::yard(10, 8, 2.0);
  Planting& p = add_planting(site, rectangle({0, 0}, {10, 8}), 0.8, 0.7);
  p.bare = Season{{11, 1}, {4, 1}};
  const surfaces::Plants told = plants_of(site);
  EXPECT_NEAR(told.in_leaf.all, 0.7, kClose);
  EXPECT_NEAR(told.bare.all, 1.0 - std::pow(0.3, kBareShare), kClose);
  EXPECT_NEAR(told.bare.bands[1], 1.0 - std::pow(0.3, kBareShare * 0.5 / 0.8), kClose);
  EXPECT_EQ(told.bare.bands[2], 0.0);
}

// What passes one passes the other after it.
TEST(PlantCover, PlantingsThatOverlapStopOneAfterTheOther) {
  Site site = test::yard(10, 8, 2.0);
  add_planting(site, rectangle({0, 0}, {10, 8}), 0.3, 0.5);
  add_planting(site, rectangle({0, 0}, {10, 8}), 0.3, 0.4);
  const surfaces::Plants p = plants_of(site);
  EXPECT_NEAR(p.in_leaf.all, 1.0 - 0.5 * 0.6, kClose);
  EXPECT_NEAR(p.in_leaf.bands[0], p.in_leaf.all, kClose);
  EXPECT_NEAR(p.planted_share, 1.0, kClose);
}

TEST(PlantCover, KindsAndEvergreensAreThoseSaid) {
  Site site = test::yard(10, 8, 2.0);
  Planting& reed = add_planting(site, rectangle({0, 0}, {4, 4}), 1.0, 0.5);
  reed.kind = PlantKind::reed;
  Planting& shrub = add_planting(site, rectangle({2, 0}, {4, 4}), 1.0, 0.5);
  shrub.kind = PlantKind::shrub;
  shrub.leaf = Leaf::broad;
  shrub.evergreen = true;
  add_planting(site, rectangle({6, 0}, {8, 4}), 1.0, 0.5);
  const surfaces::Plants p = plants_of(site);
  EXPECT_NEAR(p.kind_m2[static_cast<std::size_t>(PlantKind::reed)], 16.0, kClose);
  EXPECT_NEAR(p.kind_m2[static_cast<std::size_t>(PlantKind::shrub)], 8.0, kClose);
  EXPECT_EQ(p.kind_m2[static_cast<std::size_t>(PlantKind::tree)], 0.0);
  EXPECT_NEAR(p.kind_m2[0], 8.0, kClose);
  EXPECT_NEAR(p.evergreen_share, 8.0 / 80.0, kClose);
  EXPECT_NEAR(p.leaf_m2[static_cast<std::size_t>(Leaf::broad)], 8.0, kClose);
  EXPECT_EQ(p.leaf_m2[static_cast<std::size_t>(Leaf::needle)], 0.0);
}

// Half of the grass stands where the animal cannot be.
TEST(PlantCover, IsOfTheUsableGround) {
  Site site = test::yard(10, 8, 2.0);
  test::add_hut(site, rectangle({0.0, 0.0}, {5.0, 8.0}), 2.0);
  add_planting(site, rectangle({4, 0}, {6, 8}), 0.2, 0.5);
  EXPECT_NEAR(plants_of(site).planted_share, 8.0 / 40.0, 0.01);
}

// Grown by a half the planting is as dense and half as tall again.
TEST(PlantCover, IsOfThePlantingAsGrown) {
  Site site = test::yard(10, 8, 2.0);
  test::add_slope(site, {5, 4}, 10.0 * geom::kDegree, 0.0);
  add_planting(site, rectangle({0, 0}, {10, 8}), 1.0, 0.5);
  BuildOptions grown;
  grown.growth = 0.5;
  const surfaces::Plants p = plants_of(site, grown);
  EXPECT_NEAR(p.in_leaf.all, 1.0 - std::pow(0.5, 1.5), 1e-6);
  EXPECT_NEAR(p.in_leaf.bands[2], 1.0 - std::pow(0.5, 0.5), 1e-6);
}

}  // namespace
}  // namespace hummock

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;
using geom::kPi;

void expect_solid(const Part& part) {
  EXPECT_TRUE(part.closed) << part.name;
  EXPECT_EQ(geom::open_edges(part.mesh), 0U) << part.name;
  EXPECT_GT(geom::signed_volume(part.mesh), 0.0) << part.name;
}

TEST(Objects, StandAsTheirMeasuresSayOnLevelGround) {
  Site site = test::yard(12, 9, 2.0);
  test::add_box(site, "box", {3, 3}, {1.0, 0.6, 0.5});
  test::add_post(site, "post", {5, 3}, 0.2, 1.5);
  test::add_log(site, "log", {7, 3}, 2.0, 0.3);
  test::add_platform(site, "deck", {9, 5}, {1.2, 0.8, 1.1});
  const Model model = test::built(site);
  ASSERT_EQ(model.object_part.size(), 4U);
  const auto mesh = [&](int k) -> const geom::Mesh& {
    return model.parts[static_cast<std::size_t>(model.object_part[static_cast<std::size_t>(k)])]
        .mesh;
  };
  EXPECT_NEAR(geom::signed_volume(mesh(0)), 0.3, 1e-12);
  EXPECT_NEAR(bounds(mesh(0)).lo.z, 0.0, 1e-12);
  EXPECT_NEAR(bounds(mesh(0)).hi.z, 0.5, 1e-12);
  EXPECT_NEAR(bounds(mesh(1)).hi.z, 1.5, 1e-12);
  // A regular prism of 16 sides, half a metre of it in the ground.
  const double sixteen = 8.0 * std::sin(2 * kPi / 16);
  EXPECT_NEAR(geom::signed_volume(mesh(1)), sixteen * 0.01 * 2.0, 1e-12);
  EXPECT_NEAR(geom::signed_volume(mesh(2)), sixteen * 0.0225 * 2.0, 1e-12);
  EXPECT_NEAR(bounds(mesh(2)).lo.z, 0.0, 1e-12);
  EXPECT_NEAR(bounds(mesh(2)).hi.z, 0.3, 1e-12);
  EXPECT_NEAR(bounds(mesh(3)).hi.z, 1.1, 1e-12);
  EXPECT_LT(bounds(mesh(3)).lo.z, -0.29);
  for (int k = 0; k < 4; ++k) {
    expect_solid(
        model.parts[static_cast<std::size_t>(model.object_part[static_cast<std::size_t>(k)])]);
  }
}

TEST(Objects, BouldersSitInTheGroundAndFillTheirSize) {
  Site site = test::yard(12, 9, 2.0);
  test::add_boulder(site, "stone", {5, 4}, {1.4, 1.1, 0.9}, 4);
  const Model model = test::built(site);
  const Part& stone = test::part(model, PartKind::object, "stone");
  expect_solid(stone);
  const geom::Box3 box = bounds(stone.mesh);
  EXPECT_NEAR(box.hi.x - box.lo.x, 1.4, 1e-12);
  EXPECT_NEAR(box.hi.y - box.lo.y, 1.1, 1e-12);
  EXPECT_NEAR(box.hi.z - box.lo.z, 0.9, 1e-12);
  EXPECT_NEAR(box.lo.z, -0.08 * 0.9, 1e-12);
  EXPECT_EQ(stone.surface, Surface::rock);
}

TEST(Objects, OfEveryKindAreClosedWhateverTheirMeasures) {
  std::mt19937 random(20240611);  // the seed of this test's cases
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * (static_cast<double>(random()) / 4294967296.0);
  };
  for (int round = 0; round < 12; ++round) {
    Site site = test::yard(20, 20, 2.0);
    test::add_mound(site, {between(4, 16), between(4, 16)}, between(1, 4), between(0.2, 2));
    test::add_slope(site, {0, 0}, between(0, 0.4), between(0, 6));
    const auto place = [&] { return Vec2{between(2, 18), between(2, 18)}; };
    const auto size = [&] { return Vec3{between(0.1, 3), between(0.1, 3), between(0.1, 3)}; };
    test::add_box(site, "box", place(), size());
    test::add_boulder(site, "boulder", place(), size(), static_cast<std::uint32_t>(random()));
    test::add_post(site, "post", place(), between(0.02, 0.5), between(0.2, 4));
    test::add_log(site, "log", place(), between(0.3, 4), between(0.05, 0.8));
    test::add_platform(site, "deck", place(), size());
    test::add_tree(site, "tree", place(), between(1, 5), size(), between(0.5, 3));
    const char* shapes[] = {"ellipsoid", "cone", "cylinder"};
    site.objects.back().crown->shape = shapes[round % 3];
    for (Object& o : site.objects) {
      o.turn = between(-4, 4);
      if (round % 2 == 1) o.lean = between(-0.6, 0.6);
      if (round % 3 == 1) o.z = between(0, 1);
    }
    const Model model = test::built(site);
    for (const Part& p : model.parts) {
      if (p.kind == PartKind::object || p.kind == PartKind::crown) expect_solid(p);
    }
  }
}

TEST(Objects, BoxesOnASlopeReachDownToTheLowestGround) {
  Site site = test::yard(12, 9, 2.0);
  test::add_slope(site, {5, 4}, 20 * kDegree, 90 * kDegree);
  test::add_box(site, "box", {5, 4}, {1.0, 1.0, 0.5});
  const Model model = test::built(site);
  const geom::Box3 box = bounds(test::part(model, PartKind::object, "box").mesh);
  EXPECT_NEAR(box.hi.z, 0.5, 1e-9);
  EXPECT_NEAR(box.lo.z, -0.5 * std::tan(20 * kDegree), 1e-9);
}

TEST(Objects, LeanAndTurnTipTowardsTheirOwnX) {
  Site site = test::yard(12, 9, 2.0);
  Object& post = test::add_post(site, "post", {5, 4}, 0.1, 2.0);
  post.lean = 30 * kDegree;
  post.turn = 90 * kDegree;
  const Model model = test::built(site);
  const geom::Box3 box = bounds(test::part(model, PartKind::object, "post").mesh);
  EXPECT_NEAR(box.hi.y, 4 + 2.0 * std::sin(30 * kDegree) + 0.05 * std::cos(30 * kDegree), 1e-9);
  EXPECT_NEAR(box.hi.x - box.lo.x, 0.1, 1e-9);
}

// A log across a mound bears on its top; one on level ground lies along it.
TEST(Objects, LogsRestOnTheGroundWithoutEnteringIt) {
  Site site = test::yard(12, 9, 2.0);
  test::add_mound(site, {5, 4}, 1.0, 0.6);
  test::add_log(site, "log", {5.0, 4.0}, 3.0, 0.3).turn = 0.4;
  const Model model = test::built(site);
  const geom::Mesh& log = test::part(model, PartKind::object, "log").mesh;
  EXPECT_NEAR(bounds(log).lo.z, 0.6, 0.01);
  EXPECT_GE(bounds(log).lo.z, 0.6 - 1e-9);  // its underside over the mound's top
  const Vec2 along{std::cos(0.4), std::sin(0.4)};
  for (double s = -1.5; s <= 1.5; s += 0.05) {
    const Vec2 p = Vec2{5, 4} + along * s;
    EXPECT_GE(bounds(log).lo.z - geom::height_at(model.ground, p), -1e-9) << s;
  }
}

TEST(Objects, OutsideTheGroundAreRefusedByName) {
  Site site = test::yard(12, 9, 2.0);
  test::add_box(site, "box", {15, 4}, {1, 1, 1});
  try {
    test::built(site);
    FAIL();
  } catch (const InputError& e) {
    EXPECT_EQ(e.where().key, "object[0].at");
  }
}

TEST(Objects, GrowthMakesTreesTallerAndNothingElse) {
  Site site = test::yard(12, 9, 2.0);
  test::add_tree(site, "tree", {5, 4}, 3.0, {2, 2, 2}, 1.5);
  test::add_box(site, "box", {8, 4}, {1, 1, 1});
  const Model now = test::built(site);
  BuildOptions later;
  later.growth = 0.25;
  const Model grown = test::built(site, later);
  EXPECT_NEAR(bounds(test::part(grown, PartKind::object, "tree").mesh).hi.z, 3.75, 1e-12);
  EXPECT_NEAR(bounds(test::part(grown, PartKind::crown, "tree").mesh).hi.z, 1.25 * 3.5, 1e-12);
  EXPECT_NEAR(bounds(test::part(grown, PartKind::object, "box").mesh).hi.z, 1.0, 1e-12);
  EXPECT_NEAR(bounds(test::part(now, PartKind::crown, "tree").mesh).hi.z, 3.5, 1e-12);
}

}  // namespace
}  // namespace hummock

// A curved overhang: an arc that leaves the fence upright, in facets. Expected values by the
// circle.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/model/build/overhang_profile.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

Overhang curved(double length, double angle_degrees) {
  return {length, angle_degrees * kDegree, Profile::curved, std::nullopt};
}

TEST(CurvedOverhang, ItsTipIsThatOfTheArc) {
  for (const double angle : {-60.0, -20.0, 0.0, 30.0, 80.0}) {
    const OverhangProfile p = profile_of(curved(0.6, angle));
    const double turn = (90.0 - angle) * kDegree;
    EXPECT_NEAR(p.reach, 0.6 / turn * (1.0 - std::cos(turn)), 1e-12) << angle;
    EXPECT_NEAR(p.rise_at(1.0), 0.6 / turn * std::sin(turn), 1e-12) << angle;
    EXPECT_EQ(p.rise_at(0.0), 0.0);
  }
}

// Between its folds it lies inside the arc by at most the header's bound, and its length falls
// short of the arc's by less than turn²/24 of it.
TEST(CurvedOverhang, ItsChordsKeepToTheArc) {
  const double turn = 110.0 * kDegree, radius = 0.8 / turn;
  const OverhangProfile p = profile_of(curved(0.8, -20.0));
  const double bound = radius * (1.0 - std::cos(0.5 * kFacetTurn)) + 1e-12;
  double length = 0.0;
  for (int k = 1; k <= 2000; ++k) {
    const double u = k / 2000.0, before = (k - 1) / 2000.0;
    const Vec2 at{u * p.reach, p.rise_at(u)};
    const double off = radius - geom::distance(at, {radius, 0.0});
    EXPECT_GE(off, -1e-12);
    EXPECT_LE(off, bound);
    length += geom::distance(at, {before * p.reach, p.rise_at(before)});
  }
  EXPECT_LE(length, 0.8 + 1e-9);
  EXPECT_NEAR(length, 0.8, 0.8 * kFacetTurn * kFacetTurn / 24.0 + 1e-4);
}

TEST(CurvedOverhang, EveryFacetHasAnAngleOfItsOwn) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].overhang = curved(0.6, 0.0);
  const Model model = test::built(site);
  const geom::Mesh& mesh = test::part(model, PartKind::overhang, "fence").mesh;
  double steepest = 0.0, flattest = 90.0;
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]];
    const Vec3 n = geom::unit(cross(mesh.vertices[t[1]] - a, mesh.vertices[t[2]] - a));
    const double angle = std::acos(std::min(1.0, std::abs(n.z))) / kDegree;
    steepest = std::max(steepest, angle);
    flattest = std::min(flattest, angle);
  }
  EXPECT_NEAR(steepest, 87.0, 1e-6);  // 15 facets of 6 degrees: from 87 to 3
  EXPECT_NEAR(flattest, 3.0, 1e-6);
}

// Straight runs meet at mitred corners, fold by fold: by Pappus the area of one edge's strip is the
// chord's length times the run at its middle; a rectangle's four corners take off 8 times the plan
// distance of that middle.
TEST(CurvedOverhang, ItsCornersAreMitredFoldByFold) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].overhang = curved(0.6, 0.0);
  const Model model = test::built(site);
  const OverhangProfile p = profile_of(curved(0.6, 0.0));
  double area = 0.0;
  for (std::size_t k = 1; k < p.share.size(); ++k) {
    const double x0 = p.share[k - 1] * p.reach, x1 = p.share[k] * p.reach;
    area += std::hypot(x1 - x0, p.rise[k] - p.rise[k - 1]) * (42.0 - 4.0 * (x0 + x1));
  }
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::overhang, "fence").mesh), area, 1e-9);
  const OverhangPanel& first = model.overhangs.front();
  const OverhangPanel& last = model.overhangs.back();
  ASSERT_EQ(first.side_a.size(), last.side_b.size());
  for (std::size_t k = 0; k < first.side_a.size(); ++k) {
    EXPECT_LT(geom::distance(first.side_a[k], last.side_b[k]), 1e-9) << k;
  }
}

TEST(CurvedOverhang, OnFallingGroundNeighboursAreFastenedAllTheWay) {
  Site site = test::yard(12, 9, 2.0);
  test::add_mound(site, {1, 1}, 3.0, 0.8);
  site.boundary.sections[0].overhang = curved(0.6, 0.0);
  const Model model = test::built(site);
  const std::size_t n = model.overhangs.size();
  for (std::size_t k = 0; k < n; ++k) {
    const OverhangPanel& one = model.overhangs[k];
    const OverhangPanel& next = model.overhangs[(k + 1) % n];
    ASSERT_EQ(one.side_b.size(), next.side_a.size());
    for (std::size_t i = 0; i < one.side_b.size(); ++i) {
      EXPECT_LT(geom::distance(one.side_b[i], next.side_a[i]), 1e-9) << k << " " << i;
    }
  }
}

TEST(CurvedOverhang, MayBeOfAnotherMakeThanTheFence) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].overhang = curved(0.3, 0.0);
  site.boundary.sections[0].overhang->kind = SheetKind::solid;
  const Model model = test::built(site);
  const Part& hood = test::part(model, PartKind::overhang, "fence");
  EXPECT_EQ(hood.surface, Surface::smooth);
}

}  // namespace
}  // namespace hummock

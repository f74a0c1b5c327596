#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

Site with_overhang(double length, double angle_degrees) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].overhang = Overhang{length, angle_degrees * kDegree};
  return site;
}

TEST(Overhang, LeansInwardsAtItsAngle) {
  const Model model = test::built(with_overhang(0.9, 40));
  ASSERT_EQ(model.overhangs.size(), model.panels.size());
  const double reach = 0.9 * std::cos(40 * kDegree);
  for (const OverhangPanel& o : model.overhangs) {
    const Panel& p = model.panels[static_cast<std::size_t>(o.panel)];
    EXPECT_LT(geom::distance(o.base_a, at_height(p.a, p.top_a)), 1e-9);
    for (const Vec3& tip : {o.tip_a, o.tip_b}) {
      EXPECT_NEAR(tip.z - 2.0, 0.9 * std::sin(40 * kDegree), 1e-12);
      EXPECT_NEAR(geom::distance_to_edges(model.outline, xy(tip)), reach, 1e-9);
      EXPECT_TRUE(geom::contains(model.outline, xy(tip)));
    }
  }
}

// The four sheets are a hipped frame: in plan the band between 12 × 9 and (12 − 2r) × (9 − 2r), in
// space that area over cos(angle).
TEST(Overhang, CornersAreMitred) {
  const Model model = test::built(with_overhang(0.9, 40));
  const double r = 0.9 * std::cos(40 * kDegree);
  const double band = 12 * 9 - (12 - 2 * r) * (9 - 2 * r);
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::overhang, "fence").mesh),
              band / std::cos(40 * kDegree), 1e-9);
  const OverhangPanel& first = model.overhangs.front();
  const OverhangPanel& last = model.overhangs.back();
  EXPECT_LT(geom::distance(first.tip_a, last.tip_b), 1e-9);
  EXPECT_NEAR(first.tip_a.x, r, 1e-12);
  EXPECT_NEAR(first.tip_a.y, r, 1e-12);
}

TEST(Overhang, RunsOnRoundAReflexCorner) {
  Site site = with_overhang(0.5, 0);
  site.boundary.outline = {{0, 0}, {8, 0}, {8, 4}, {4, 4}, {4, 8}, {0, 8}};  // an L
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
  const Model model = test::built(site);
  // Level overhang: the band between the L (48 m²) and the L inset by 0.5 m.
  const geom::Polygon inset{{0.5, 0.5}, {7.5, 0.5}, {7.5, 3.5}, {3.5, 3.5}, {3.5, 7.5}, {0.5, 7.5}};
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::overhang, "fence").mesh),
              48.0 - geom::signed_area(inset), 1e-9);
}

TEST(Overhang, ShortPanelsAtACornerAreCutByOneMitre) {
  Site site = with_overhang(1.0, 0);
  site.boundary.sections[0].panel = 0.4;  // the mitre runs over three panels
  const Model model = test::built(site);
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::overhang, "fence").mesh),
              12 * 9 - 10 * 7, 1e-9);
}

TEST(Overhang, OfUnequalNeighboursMeetsWhereTheirRimsCross) {
  Site site = with_overhang(0.9, 0);
  test::split_sections(site);
  site.boundary.sections[1].overhang = Overhang{0.4, 0.0};
  const Model model = test::built(site);
  // South 0.9 m, east 0.4 m: the rims cross at (11.6, 0.9).
  for (const OverhangPanel& o : model.overhangs) {
    const Panel& p = model.panels[static_cast<std::size_t>(o.panel)];
    if (p.edge == 0 && p.b.x == 12.0) {
      EXPECT_LT(geom::distance(xy(o.tip_b), Vec2{11.6, 0.9}), 1e-9);
    }
    if (p.edge == 1 && p.a.y == 0.0) {
      EXPECT_LT(geom::distance(xy(o.tip_a), Vec2{11.6, 0.9}), 1e-9);
    }
  }
}

TEST(Overhang, WithoutANeighbourEndsStraight) {
  Site site = with_overhang(0.9, 0);
  test::split_sections(site);
  site.boundary.sections[1].overhang.reset();
  const Model model = test::built(site);
  for (const OverhangPanel& o : model.overhangs) {
    const Panel& p = model.panels[static_cast<std::size_t>(o.panel)];
    EXPECT_NE(p.edge, 1);
    if (p.edge == 0 && p.b.x == 12.0) {
      EXPECT_LT(geom::distance(xy(o.tip_b), Vec2{12, 0.9}), 1e-9);
    }
  }
}

TEST(Overhang, OnAFallingFenceShareTheirTipsAtThePosts) {
  Site site = with_overhang(0.9, 40);
  test::add_mound(site, {6, 0}, 4, 0.8);
  test::add_mound(site, {12, 9}, 3, 0.5);
  const Model model = test::built(site);
  const std::size_t n = model.overhangs.size();
  for (std::size_t k = 0; k < n; ++k) {
    EXPECT_LT(geom::distance(model.overhangs[k].tip_b, model.overhangs[(k + 1) % n].tip_a), 1e-9);
  }
}

}  // namespace
}  // namespace hummock

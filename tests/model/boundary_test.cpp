#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

TEST(Boundary, IsDividedEvenlyIntoPanelsNoLongerThanAsked) {
  const Model model = test::built(test::yard(12, 9, 2.0));
  // 12 m at 2 m: 6 panels; 9 m at 2 m: 5 panels of 1.8 m.
  ASSERT_EQ(model.panels.size(), 22U);
  EXPECT_NEAR(geom::distance(model.panels[0].a, model.panels[0].b), 2.0, 1e-12);
  EXPECT_NEAR(geom::distance(model.panels[6].a, model.panels[6].b), 1.8, 1e-12);
  for (std::size_t k = 0; k < model.panels.size(); ++k) {
    EXPECT_LT(geom::distance(model.panels[k].b, model.panels[(k + 1) % 22].a), 1e-12);
  }
}

TEST(Boundary, FencesAreAsLargeAsTheirLengthTimesHeight) {
  const Model model = test::built(test::yard(12, 9, 2.0));
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::panel, "fence").mesh), 42 * 2.0, 1e-9);
}

TEST(Boundary, DrawnClockwiseComesOutTheSameWithTheFilesEdgeNumbers) {
  Site site = test::yard(12, 9, 2.0);
  test::split_sections(site);
  site.boundary.sections[1].height = 3.0;  // east
  const Model forth = test::built(site);
  Site turned = site;
  turned.boundary.outline = {{0, 0}, {0, 9}, {12, 9}, {12, 0}};  // edges: west, north, east, south
  turned.boundary.sections[1].height = 2.0;
  turned.boundary.sections[2].height = 3.0;
  test::add_gate(turned, 2, 1.0, 1.0, 2.0);  // 1 m from the north-east corner
  const Model back = test::built(turned);
  EXPECT_GT(geom::signed_area(back.outline), 0.0);
  for (const Panel& p : back.panels) {
    EXPECT_EQ(p.edge == 2, p.a.x == 12.0 && p.b.x == 12.0);
    if (p.edge == 2) {
      EXPECT_NEAR(p.top_a, 3.0, 1e-12);
    }
  }
  ASSERT_EQ(back.gateways.size(), 1U);
  EXPECT_NEAR(back.gateways[0].a.y, 7.0, 1e-12);
  EXPECT_NEAR(back.gateways[0].b.y, 8.0, 1e-12);
  EXPECT_EQ(forth.gateways.size(), 0U);
}

// A slope of g over a panel of length L: stepped panels leave a wedge g·L at their low end.
TEST(Boundary, SteppedPanelsLeaveAWedgeOfSlopeTimesLength) {
  Site site = test::yard(12, 9, 2.0);
  const double g = std::tan(10 * kDegree);
  test::add_slope(site, {0, 0}, 10 * kDegree, 90 * kDegree);  // falls to the east
  site.boundary.sections[0].fit = Fit::stepped;
  const Model model = test::built(site);
  for (const Panel& p : model.panels) {
    EXPECT_EQ(p.foot_a, p.foot_b);
    EXPECT_NEAR(p.top_a - p.foot_a, 2.0, 1e-12);
    const double wedge = p.foot_a - std::min(p.ground_a, p.ground_b);
    EXPECT_NEAR(wedge, g * std::abs(p.b.x - p.a.x), 1e-9);
    EXPECT_NEAR(std::max(p.ground_a, p.ground_b), p.foot_a, 1e-12);
  }
}

TEST(Boundary, RakedPanelsStandOnTheGroundEverywhere) {
  Site site = test::yard(12, 9, 2.0);
  test::add_mound(site, {5, 0.3}, 2.5, 0.8);
  test::add_slope(site, {0, 0}, 6 * kDegree, 30 * kDegree);
  const Model model = test::built(site);
  const geom::Mesh& fence = test::part(model, PartKind::panel, "fence").mesh;
  // Every corner of the sheet is on the ground or on the straight top of its panel; and from just
  // above the ground no ray gets out under it.
  std::size_t on_ground = 0;
  for (const Vec3& v : fence.vertices) {
    const double above = v.z - geom::height_at(model.ground, xy(v));
    EXPECT_GT(above, -1e-9);
    on_ground += above < 1e-9 ? 1 : 0;
  }
  EXPECT_GT(on_ground, fence.vertices.size() / 3);
  for (double x = 0.05; x < 12; x += 0.0931) {
    const double z = geom::height_at(model.ground, {x, 0.0}) + 0.002;
    EXPECT_TRUE(model.body_scene->occluded(geom::Ray{{x, 0.01, z}, {0, -1, 0}, 0.0, 0.02})) << x;
  }
  for (const Panel& p : model.panels) {
    EXPECT_NEAR(p.top_a - p.ground_a, 2.0, 1e-12);
    EXPECT_NEAR(p.top_b - p.ground_b, 2.0, 1e-12);
  }
}

TEST(Boundary, PostsAreClosedAndStandOutsideTheLine) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.outline = {{0, 0}, {12, 0}, {12, 9}, {6, 4}, {0, 9}};  // with a reflex corner
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4};
  const Model model = test::built(site);
  const Part& posts = test::part(model, PartKind::post, "fence");
  EXPECT_TRUE(geom::is_closed(posts.mesh));
  EXPECT_GT(geom::signed_volume(posts.mesh), 0.0);
  for (const Vec3& v : posts.mesh.vertices) {
    EXPECT_FALSE(geom::contains(model.outline, xy(v)) &&
                 geom::distance_to_edges(model.outline, xy(v)) > 1e-9);
    EXPECT_LE(v.z, 2.0 + 1e-12);
  }
}

TEST(Boundary, MeshOpennessIsTheOpenScreeningArea) {
  // Square mesh 50 mm opening, 2.5 mm wire: 90.703 % (ISO 9044 terms; computed from (w/(w+d))²).
  Site site = test::yard(4, 4, 2.0);
  site.boundary.sections[0].aperture = 0.050;
  site.boundary.sections[0].wire = 0.0025;
  const Model model = test::built(site);
  EXPECT_NEAR(test::part(model, PartKind::panel, "fence").openness, 0.90703, 5e-6);
}

TEST(Boundary, SkirtHangsFromTheGroundToItsDepth) {
  Site site = test::yard(12, 9, 2.0);
  test::add_mound(site, {5, 0.3}, 2.5, 0.8);
  site.boundary.sections[0].buried = 0.6;
  const Model model = test::built(site);
  const geom::Mesh& skirt = test::part(model, PartKind::skirt, "fence").mesh;
  EXPECT_NEAR(geom::surface_area(skirt), 42 * 0.6, 1e-9);  // a sheared rectangle keeps its area
  for (const Vec3& v : skirt.vertices) {
    const double depth = geom::height_at(model.ground, xy(v)) - v.z;
    EXPECT_TRUE(std::abs(depth) < 1e-9 || std::abs(depth - 0.6) < 1e-9) << depth;
  }
}

TEST(Boundary, ApronsMeetInMitredCorners) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].apron = Apron{0.9, 0.15, Side::inside};
  const Model inside = test::built(site);
  // Inside: the frame between 12 × 9 and 10.2 × 7.2.
  EXPECT_NEAR(geom::surface_area(test::part(inside, PartKind::apron, "fence").mesh),
              12 * 9 - 10.2 * 7.2, 1e-6);
  site.boundary.sections[0].apron = Apron{0.9, 0.15, Side::outside};
  const Model outside = test::built(site);
  EXPECT_NEAR(geom::surface_area(test::part(outside, PartKind::apron, "fence").mesh),
              13.8 * 10.8 - 12 * 9, 1e-6);
  for (const Vec3& v : test::part(outside, PartKind::apron, "fence").mesh.vertices) {
    EXPECT_NEAR(v.z, -0.15, 1e-12);
  }
}

TEST(Boundary, FootingIsAClosedRingOfConcrete) {
  Site site = test::yard(12, 9, 2.0);
  site.boundary.sections[0].footing = Footing{0.5, 0.3};
  const Model model = test::built(site);
  const Part& footing = test::part(model, PartKind::footing, "fence");
  EXPECT_TRUE(geom::is_closed(footing.mesh));
  // Mitred corners: mean length 42 m, 0.3 m wide, to 0.5 m deep under 10 mm of ground.
  EXPECT_NEAR(geom::signed_volume(footing.mesh), 42 * 0.3 * 0.49, 1e-9);
  EXPECT_NEAR(bounds(footing.mesh).hi.z, -0.01, 1e-12);
}

TEST(Boundary, JointGapsAreOpen) {
  Site site = test::yard(12, 9, 2.0, SheetKind::solid);
  site.boundary.sections[0].joint_gap = 0.08;
  const Model model = test::built(site);
  // 22 joints, each 0.08 m wide over the fence's height.
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::panel, "fence").mesh),
              (42 - 22 * 0.08) * 2.0, 1e-9);
  EXPECT_FALSE(model.body_scene->first_hit({{4.0, 0.1, 1.0}, {0, -1, 0}, 0.0, 0.3}));
  EXPECT_TRUE(model.body_scene->first_hit({{4.05, 0.1, 1.0}, {0, -1, 0}, 0.0, 0.3}));
}

}  // namespace
}  // namespace hummock

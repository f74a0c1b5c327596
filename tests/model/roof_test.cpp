#include <gtest/gtest.h>

#include <cmath>

#include "engine/model/shapes/mean_value.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

using geom::kDegree;

double roof_height(const Model& model, Vec2 p) {
  return 10.0 - model.body_scene->first_hit({{p.x, p.y, 10.0}, {0, 0, -1}, 0.0, 100.0}).t;
}

Site roofed(double sag) {
  Site site = test::yard(12, 9, 2.0);
  Roof roof;
  roof.height = 3.0;
  roof.sag = sag;
  roof.aperture = 0.025;
  site.roof = roof;
  return site;
}

TEST(Roof, WithoutSagIsALevelSheetOverTheYard) {
  const Model model = test::built(roofed(0.0));
  const Part& roof = test::part(model, PartKind::roof, "roof");
  EXPECT_NEAR(geom::surface_area(roof.mesh), 108.0, 1e-6);
  EXPECT_NEAR(bounds(roof.mesh).lo.z, 3.0, 1e-12);
  EXPECT_NEAR(bounds(roof.mesh).hi.z, 3.0, 1e-12);
  EXPECT_EQ(roof.surface, Surface::mesh);
}

// Across the middle of a 12 × 9 yard the nearest edge is a long one: the sheet is the parabola
// 3 − sag (1 − (x/4.5)²), x from the middle line.
TEST(Roof, SagsInAParabola) {
  const Model model = test::built(roofed(0.4));
  for (double y : {0.5, 1.7, 3.0, 4.5, 6.2}) {
    const double x = (y - 4.5) / 4.5;
    EXPECT_NEAR(roof_height(model, {6.01, y}), 3.0 - 0.4 * (1.0 - x * x), 0.003) << y;
  }
  for (const Vec3& v : test::part(model, PartKind::roof, "roof").mesh.vertices) {
    if (geom::distance_to_edges(model.outline, xy(v)) < 1e-9) {
      EXPECT_NEAR(v.z, 3.0, 1e-9);
    }
  }
}

TEST(Roof, IsHeldUpByAPostThatReachesIt) {
  Site site = roofed(0.4);
  test::add_post(site, "short post", {3, 4.5}, 0.1, 2.0);
  const double t = 3.2 / 4.5;  // the nearest edge over the greatest such distance
  EXPECT_NEAR(roof_height(test::built(site), {3.2, 4.7}), 3.0 - 0.4 * t * (2.0 - t), 0.003);
  site.objects.clear();
  test::add_post(site, "prop", {6, 4.5}, 0.1, 2.97);
  const Model model = test::built(site);
  EXPECT_GT(roof_height(model, {6.06, 4.5}), 2.9);
  EXPECT_NEAR(bounds(test::part(model, PartKind::roof, "roof").mesh).lo.z, 2.6, 0.01);
}

TEST(Roof, OverTheFenceLiesOnEveryPost) {
  Site site = roofed(0.0);
  site.roof->height.reset();
  site.roof->above_fence = 0.0;
  test::add_mound(site, {4, 0}, 3, 0.7);
  const Model model = test::built(site);
  for (const Panel& p : model.panels) {
    double nearest = 1e9;
    for (const Vec3& v : test::part(model, PartKind::roof, "roof").mesh.vertices) {
      nearest = std::min(nearest, geom::distance(v, at_height(p.a, p.top_a)));
    }
    EXPECT_LT(nearest, 1e-6);
  }
}

TEST(Roof, OverAFenceOnAPlaneIsAPlane) {
  Site site = roofed(0.0);
  site.roof->height.reset();
  site.roof->above_fence = 0.5;
  test::add_slope(site, {0, 0}, 8 * kDegree, 40 * kDegree);
  const Model model = test::built(site);
  for (const Vec3& v : test::part(model, PartKind::roof, "roof").mesh.vertices) {
    EXPECT_NEAR(v.z, geom::height_at(model.ground, xy(v)) + 2.5, 1e-9);
  }
}

TEST(Roof, WithAnOutlineOfItsOwnLeavesTheRestOpen) {
  Site site = roofed(0.0);
  site.roof->outline = Polygon{{0, 0}, {0, 9}, {6, 9}, {6, 0}};  // clockwise
  const Model model = test::built(site);
  EXPECT_NEAR(geom::surface_area(test::part(model, PartKind::roof, "roof").mesh), 54.0, 1e-6);
  EXPECT_NEAR(roof_height(model, {3, 4}), 3.0, 1e-5);
  EXPECT_NEAR(roof_height(model, {9, 4}), 0.0, 1e-5);
}

TEST(Roof, BeyondTheBoundaryTakesTheNearestFencesHeight) {
  Site site = roofed(0.0);
  site.roof->height.reset();
  site.roof->above_fence = 0.2;
  site.roof->outline = Polygon{{-1, -1}, {13, -1}, {13, 10}, {-1, 10}};
  const Model model = test::built(site);
  EXPECT_NEAR(roof_height(model, {-0.8, 4}), 2.2, 1e-5);
}

// Mean value coordinates: a plane comes out as that plane, in a concave polygon too; on the edges
// the value is linear (Hormann & Floater 2006, sections 2 and 4).
TEST(MeanValue, HasLinearPrecisionInAConcavePolygon) {
  const geom::Polygon shape{{0, 0}, {8, 0}, {8, 4}, {4, 4}, {4, 8}, {0, 8}};
  std::vector<double> values;
  for (Vec2 p : shape) values.push_back(1.0 + 0.3 * p.x - 0.2 * p.y);
  for (Vec2 p : {Vec2{1, 1}, Vec2{7.9, 3.9}, Vec2{3.99, 4.01}, Vec2{4, 2}, Vec2{6, 0}, Vec2{8, 4},
                 Vec2{2, 7}}) {
    EXPECT_NEAR(mean_value(shape, values, p), 1.0 + 0.3 * p.x - 0.2 * p.y, 1e-9) << p.x;
  }
}

}  // namespace
}  // namespace hummock

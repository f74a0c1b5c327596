#include "geometry/terrain/heightfield.h"

#include <gtest/gtest.h>

#include <random>

#include "geometry/rays/ray_scene.h"

namespace hummock::geom {
namespace {

Heightfield rough(int nx, int ny, double cell, unsigned seed) {
  Heightfield h =
      level_ground({{-1.0, 2.0}, {-1.0 + (nx - 1) * cell, 2.0 + (ny - 1) * cell}}, cell, 0);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> z(-0.5, 0.5);
  for (double& v : h.z) v = z(random);
  return h;
}

Heightfield tilted(double sx, double sy) {
  Heightfield h = level_ground({{0, 0}, {10, 8}}, 0.5, 0);
  for (int j = 0; j < h.grid.ny; ++j) {
    for (int i = 0; i < h.grid.nx; ++i)
      h.at(i, j) = sx * h.grid.node(i, j).x + sy * h.grid.node(i, j).y;
  }
  return h;
}

TEST(Heightfield, NodesAreMetExactlyAndAPlaneEverywhere) {
  const Heightfield h = rough(7, 5, 0.25, 3);
  for (int j = 0; j < 5; ++j) {
    for (int i = 0; i < 7; ++i) EXPECT_NEAR(height_at(h, h.grid.node(i, j)), h.at(i, j), 1e-12);
  }
  const Heightfield plane = tilted(0.3, -0.2);
  EXPECT_NEAR(height_at(plane, {3.21, 4.56}), 0.3 * 3.21 - 0.2 * 4.56, 1e-12);
  EXPECT_NEAR(slope_at(plane, {3.21, 4.56}), std::atan(std::hypot(0.3, 0.2)), 1e-12);
}

TEST(Heightfield, RaysMeetTheVerySurfaceThatHeightAtGives) {
  // The ray library must split cells along the same diagonal.
  const Heightfield h = rough(23, 31, 0.5, 5);
  RayScene scene;
  scene.add_ground(h, 9);
  scene.commit();
  std::mt19937 random(17);
  std::uniform_real_distribution<double> x(h.grid.x0 + 0.01, h.grid.x_max() - 0.01);
  std::uniform_real_distribution<double> y(h.grid.y0 + 0.01, h.grid.y_max() - 0.01);
  for (int k = 0; k < 5000; ++k) {
    const Vec2 p{x(random), y(random)};
    const Hit hit = scene.first_hit({at_height(p, 10.0), {0, 0, -1}});
    ASSERT_EQ(hit.id, 9);
    EXPECT_NEAR(10.0 - hit.t, height_at(h, p), 2e-5) << "seed 17, ray " << k;
  }
}

TEST(Heightfield, BreaksLeaveTheGroundStraightBetweenThem) {
  const Heightfield h = rough(9, 9, 1.0, 21);
  const Vec2 a{-0.3, 2.7};
  const Vec2 b{6.1, 8.9};
  const auto t = ground_breaks(h, a, b);
  ASSERT_GE(t.size(), 10U);
  for (std::size_t k = 0; k + 1 < t.size(); ++k) {
    ASSERT_LT(t[k], t[k + 1]);
    const double middle = height_at(h, lerp(a, b, 0.5 * (t[k] + t[k + 1])));
    const double ends = 0.5 * (height_at(h, lerp(a, b, t[k])) + height_at(h, lerp(a, b, t[k + 1])));
    EXPECT_NEAR(middle, ends, 1e-9);
  }
}

TEST(Heightfield, SumsOverAPlaneAreTheClosedForm) {
  const Heightfield plane = tilted(0.3, -0.2);
  const Polygon l{{1.1, 0.7}, {8.3, 1.2}, {7.9, 3.3}, {3.7, 3.1}, {3.5, 7.2}, {0.9, 6.6}};
  const double area = std::abs(signed_area(l));
  const SurfaceSums sums = surface_sums(plane, l, 0.0);
  EXPECT_NEAR(sums.plan_area_m2, area, 1e-9);
  EXPECT_NEAR(sums.surface_area_m2, area * std::sqrt(1 + 0.09 + 0.04), 1e-9);
}

TEST(Heightfield, TheCutMeshIsConformingAndHasTheSameArea) {
  const Heightfield h = rough(21, 21, 0.5, 8);
  const Polygon l{{0.1, 2.7}, {8.3, 3.2}, {7.9, 5.3}, {3.7, 5.1}, {3.5, 11.2}, {0.4, 10.6}};
  const Mesh m = ground_mesh(h, l);
  const SurfaceSums sums = surface_sums(h, l, 0.0);
  EXPECT_NEAR(surface_area(m), sums.surface_area_m2, 1e-6);
  // Open edges may only lie on the outline: no cracks inside.
  std::size_t on_outline = 0;
  const double length_open = [&] {
    double sum = 0.0;
    for (const Triangle& t : m.triangles) {
      for (std::size_t k = 0; k < 3; ++k) {
        const Vec2 p = xy(m.vertices[t[k]]);
        const Vec2 q = xy(m.vertices[t[(k + 1) % 3]]);
        if (distance_to_edges(l, p) < 1e-6 && distance_to_edges(l, q) < 1e-6 &&
            distance_to_edges(l, lerp(p, q, 0.5)) < 1e-6) {
          ++on_outline;
          sum += distance(p, q);
        }
      }
    }
    return sum;
  }();
  EXPECT_EQ(open_edges(m), on_outline);
  EXPECT_NEAR(length_open, perimeter(l), 1e-5);
}

// Corners on nodes and on the lines between them too.
TEST(Heightfield, TheCutMeshOfRandomPolygonsHasTheAreaOfTheOverlay) {
  const std::uint64_t seed = 20250313;
  std::mt19937_64 random(seed);
  const auto uniform = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  const Heightfield h = rough(25, 25, 0.5, 9);
  for (int trial = 0; trial < 120; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Polygon polygon;
    const int corners = 3 + static_cast<int>(random() % 5);
    for (int k = 0; k < corners; ++k) {
      const double turn = 2.0 * kPi * (k + uniform(0.0, 0.5)) / corners, r = uniform(1.0, 5.0);
      Vec2 p{6.0 + r * std::cos(turn), 6.0 + r * std::sin(turn)};
      if (trial % 3 == 0) p = {0.5 * std::round(2.0 * p.x), 0.5 * std::round(2.0 * p.y)};
      polygon.push_back(p);
    }
    const Mesh m = ground_mesh(h, polygon);
    EXPECT_NEAR(surface_area(m), surface_sums(h, polygon, 0.0).surface_area_m2, 1e-5);
    for (const Vec3& v : m.vertices) ASSERT_NEAR(v.z, height_at(h, xy(v)), 1e-9);
  }
}

TEST(Mesh, ACubeHasItsAreaAndVolumeAndNoOpenEdge) {
  Mesh soup;
  append_quad(soup, {0, 0, 0}, {0, 2, 0}, {2, 2, 0}, {2, 0, 0});
  append_quad(soup, {0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2});
  append_quad(soup, {0, 0, 0}, {2, 0, 0}, {2, 0, 2}, {0, 0, 2});
  append_quad(soup, {2, 0, 0}, {2, 2, 0}, {2, 2, 2}, {2, 0, 2});
  append_quad(soup, {2, 2, 0}, {0, 2, 0}, {0, 2, 2}, {2, 2, 2});
  append_quad(soup, {0, 2, 0}, {0, 0, 0}, {0, 0, 2}, {0, 2, 2});
  EXPECT_GT(open_edges(soup), 0U);  // a soup: no shared corners yet
  Mesh cube = weld(soup, 0.0);
  EXPECT_EQ(cube.vertices.size(), 8U);
  EXPECT_TRUE(is_closed(cube));
  EXPECT_NEAR(signed_volume(cube), 8.0, 1e-12);
  EXPECT_NEAR(surface_area(cube), 24.0, 1e-12);
  place(cube, 0.7, {100, -50, 3});
  EXPECT_NEAR(signed_volume(cube), 8.0, 1e-9);
  cube.triangles.pop_back();
  EXPECT_EQ(open_edges(cube), 3U);
  flip(cube);
  EXPECT_LT(signed_volume(cube), 0.0);
}

TEST(Mesh, WeldWithAToleranceDoesNotDependOnTheOrderOfVertices) {
  Mesh m;
  append_quad(m, {0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0});
  append_quad(m, {1 + 1e-9, 0, 0}, {2, 0, 0}, {2, 1, 0}, {1 - 1e-9, 1, 1e-9});
  Mesh reversed;
  append_quad(reversed, {1 + 1e-9, 0, 0}, {2, 0, 0}, {2, 1, 0}, {1 - 1e-9, 1, 1e-9});
  append_quad(reversed, {0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0});
  EXPECT_EQ(weld(m, 1e-6).vertices.size(), 6U);
  EXPECT_EQ(weld(m, 1e-6).vertices, weld(reversed, 1e-6).vertices);
}

TEST(RayScene, AllHitsComeInOrderAndOcclusionAgreesWithTheFirst) {
  Mesh low;
  append_quad(low, {0, 0, 1}, {4, 0, 1}, {4, 4, 1}, {0, 4, 1});
  Mesh high;
  append_quad(high, {0, 0, 3}, {4, 0, 3}, {4, 4, 3}, {0, 4, 3});
  RayScene scene;
  scene.add_mesh(high, 2);
  scene.add_mesh(low, 1);
  scene.commit();
  const auto hits = scene.all_hits({{1, 0.5, 0}, {0, 0, 1}});
  ASSERT_EQ(hits.size(), 2U);
  EXPECT_EQ(hits[0].id, 1);
  EXPECT_NEAR(hits[0].t, 1.0, 1e-6);
  EXPECT_EQ(hits[1].id, 2);
  EXPECT_TRUE(scene.occluded(Ray{{1, 0.5, 0}, {0, 0, 1}}));
  EXPECT_FALSE(scene.occluded(Ray{{1, 0.5, 0}, {0, 0, 1}, 0.0, 0.9}));
  EXPECT_FALSE(scene.segment_free({1, 0.5, 0}, {1, 0.5, 2}));
  EXPECT_TRUE(scene.segment_free({1, 0.5, 1.5}, {1, 0.5, 2.5}));
  RayPacket16 packet;
  for (int k = 0; k < 16; ++k) {
    packet.ox[k] = static_cast<float>(k) - 6.0F;
    packet.oy[k] = 0.5F;
    packet.oz[k] = 0.0F;
    packet.dx[k] = packet.dy[k] = 0.0F;
    packet.dz[k] = 1.0F;
    packet.near[k] = 0.0F;
    packet.far[k] = 100.0F;
  }
  const std::uint32_t met = scene.occluded(packet);
  for (int k = 0; k < 16; ++k) {
    const bool under = k >= 6 && k <= 10;
    EXPECT_EQ(((met >> k) & 1U) != 0U, under) << k;
  }
}

}  // namespace
}  // namespace hummock::geom

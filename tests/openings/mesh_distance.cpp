// The nearest points of two meshes against closed forms and against every pair of triangles.
#include "geometry/mesh/mesh_distance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace hummock {
namespace {

using geom::Mesh;
using geom::Vec3;

double uniform(std::mt19937_64& random, double lo, double hi) {
  return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
}

Mesh box(Vec3 lo, Vec3 hi) {
  Mesh m;
  const Vec3 a{lo.x, lo.y, lo.z}, b{hi.x, lo.y, lo.z}, c{hi.x, hi.y, lo.z}, d{lo.x, hi.y, lo.z};
  const Vec3 e{lo.x, lo.y, hi.z}, f{hi.x, lo.y, hi.z}, g{hi.x, hi.y, hi.z}, h{lo.x, hi.y, hi.z};
  geom::append_quad(m, a, d, c, b);
  geom::append_quad(m, e, f, g, h);
  geom::append_quad(m, a, b, f, e);
  geom::append_quad(m, b, c, g, f);
  geom::append_quad(m, c, d, h, g);
  geom::append_quad(m, d, a, e, h);
  return m;
}

// A ball of `n` by 2n facets, corners on the sphere.
Mesh ball(Vec3 centre, double radius, int n) {
  Mesh m;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < 2 * n; ++j) {
      const auto at = [&](int u, int v) {
        const double t = geom::kPi * u / n, s = geom::kPi * v / n;
        return centre +
               Vec3{std::sin(t) * std::cos(s), std::sin(t) * std::sin(s), std::cos(t)} * radius;
      };
      geom::append_quad(m, at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1));
    }
  }
  return m;
}

TEST(MeshDistance, boxes_are_as_far_apart_as_their_sides_edges_and_corners) {
  const geom::MeshTree one(box({0, 0, 0}, {1, 1, 1}));
  const auto to = [&](Vec3 lo) {
    return nearest(one, geom::MeshTree(box(lo, lo + Vec3{1, 1, 1})), 100.0).distance;
  };
  EXPECT_NEAR(to({1.3, 0.2, 0.1}), 0.3, 1e-12);
  EXPECT_NEAR(to({1.3, 1.4, 0.1}), 0.5, 1e-12);
  EXPECT_NEAR(to({1.2, 1.3, 1.6}), 0.7, 1e-12);
  EXPECT_EQ(to({0.5, 0.5, 0.5}), 0.0);
  EXPECT_EQ(to({1.0, 0.0, 0.0}), 0.0);
}

TEST(MeshDistance, faceted_balls_are_nearly_as_far_apart_as_balls) {
  const int n = 40;
  const double sagitta = 1.0 - std::cos(geom::kPi / (2 * n));  // of a facet, radius 1
  const geom::MeshTree p(ball({0, 0, 0}, 1.0, n)), q(ball({3.1, 0.7, -0.4}, 1.2, n));
  const double exact = geom::length(Vec3{3.1, 0.7, -0.4}) - 2.2;
  const double d = nearest(p, q, 10.0).distance;
  EXPECT_GE(d, exact - 1e-9);
  EXPECT_LE(d, exact + 2.0 * (1.0 + 1.2) * sagitta);
}

TEST(MeshDistance, what_is_farther_than_asked_is_not_looked_for) {
  const geom::MeshTree p(box({0, 0, 0}, {1, 1, 1})), q(box({2, 0, 0}, {3, 1, 1}));
  EXPECT_EQ(nearest(p, q, 0.9).distance, 0.9);
  EXPECT_EQ(nearest(p, geom::MeshTree(Mesh{}), 0.9).distance, 0.9);
}

TEST(MeshDistance, the_tree_finds_what_every_pair_of_triangles_finds) {
  const std::uint64_t seed = 31;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 60; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Mesh m[2];
    for (int which = 0; which < 2; ++which) {
      for (int k = 0; k < 40; ++k) {
        const Vec3 c{uniform(random, 0, 2) + 1.6 * which, uniform(random, 0, 2),
                     uniform(random, 0, 2)};
        const auto v = static_cast<std::uint32_t>(m[which].vertices.size());
        for (int i = 0; i < 3; ++i) {
          m[which].vertices.push_back(c + Vec3{uniform(random, -0.2, 0.2),
                                               uniform(random, -0.2, 0.2),
                                               uniform(random, -0.2, 0.2)});
        }
        m[which].triangles.push_back({v, v + 1, v + 2});
      }
    }
    double slow = 1e300;
    for (const auto& t : m[0].triangles) {
      for (const auto& u : m[1].triangles) {
        const Vec3 a[3] = {m[0].vertices[t[0]], m[0].vertices[t[1]], m[0].vertices[t[2]]};
        const Vec3 b[3] = {m[1].vertices[u[0]], m[1].vertices[u[1]], m[1].vertices[u[2]]};
        slow = std::min(slow, geom::nearest_of_triangles(a, b).distance);
      }
    }
    const auto fast = nearest(geom::MeshTree(m[0]), geom::MeshTree(m[1]), 1e9);
    EXPECT_EQ(fast.distance, slow);
    EXPECT_NEAR(geom::distance(fast.on_first, fast.on_second), slow, 1e-12);
  }
}

// One pair of triangles against alternating projection from many starts, which only needs the
// nearest point of one triangle, found by bisection on a grid of its coordinates.
TEST(MeshDistance, no_sampled_pair_of_points_is_nearer_than_the_nearest) {
  const std::uint64_t seed = 8;
  std::mt19937_64 random(seed);
  for (int trial = 0; trial < 300; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    Vec3 t[2][3];
    for (auto& tri : t) {
      for (auto& v : tri) {
        v = {uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)};
      }
    }
    const double exact = geom::nearest_of_triangles(t[0], t[1]).distance;
    double sampled = 1e300;
    constexpr int kSteps = 14;
    const auto point = [&](int which, int i, int j) {
      return t[which][0] + (t[which][1] - t[which][0]) * (1.0 * i / kSteps) +
             (t[which][2] - t[which][0]) * (1.0 * j / kSteps);
    };
    for (int i = 0; i <= kSteps; ++i) {
      for (int j = 0; i + j <= kSteps; ++j) {
        for (int k = 0; k <= kSteps; ++k) {
          for (int m = 0; k + m <= kSteps; ++m) {
            sampled = std::min(sampled, geom::distance(point(0, i, j), point(1, k, m)));
          }
        }
      }
    }
    EXPECT_LE(exact, sampled + 1e-12);
    EXPECT_GE(exact, sampled - 2.0 * 3.5 / kSteps);
  }
}

}  // namespace
}  // namespace hummock

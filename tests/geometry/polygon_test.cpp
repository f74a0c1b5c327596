#include "geometry/plan/polygon.h"

#include <gtest/gtest.h>

#include <random>

#include "geometry/plan/triangulate_cgal.h"

namespace hummock::geom {
namespace {

const Polygon kRect{{0, 0}, {12, 0}, {12, 9}, {0, 9}};
const Polygon kL{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 5}, {0, 5}};

Polygon turned(const Polygon& p, double a) {
  Polygon r;
  for (Vec2 v : p) {
    r.push_back({std::cos(a) * v.x - std::sin(a) * v.y, std::sin(a) * v.x + std::cos(a) * v.y});
  }
  return r;
}

// A star-shaped polygon: simple by construction.
Polygon random_star(std::mt19937& random) {
  std::uniform_real_distribution<double> radius(1.0, 5.0);
  const int n = 5 + static_cast<int>(random() % 12);
  Polygon p;
  for (int k = 0; k < n; ++k) {
    const double a = 2 * kPi * k / n;
    const double r = radius(random);
    p.push_back({r * std::cos(a), r * std::sin(a)});
  }
  return p;
}

TEST(Polygon, AreaAndPerimeterOfARectangleAndOfAnL) {
  EXPECT_DOUBLE_EQ(signed_area(kRect), 108.0);
  EXPECT_DOUBLE_EQ(perimeter(kRect), 42.0);
  EXPECT_DOUBLE_EQ(signed_area(kL), 18.0);  // 6·2 + 2·3
  EXPECT_DOUBLE_EQ(signed_area(Polygon(kL.rbegin(), kL.rend())), -18.0);
}

TEST(Polygon, ABowTieAndAZeroEdgeAreFoundAndARectangleIsNot) {
  EXPECT_FALSE(first_self_crossing(kRect).has_value());
  EXPECT_FALSE(first_self_crossing(kL).has_value());
  const auto bow = first_self_crossing({{0, 0}, {2, 2}, {2, 0}, {0, 2}});
  ASSERT_TRUE(bow.has_value());
  EXPECT_EQ(*bow, std::pair(0, 2));
  EXPECT_EQ(first_self_crossing({{0, 0}, {0, 0}, {1, 0}}), std::pair(0, 0));
  EXPECT_TRUE(first_self_crossing({{0, 0}, {4, 0}, {2, 0}, {2, 3}}).has_value());  // folds back
}

TEST(Polygon, SegmentsThatTouchMeetAndParallelOnesDoNot) {
  EXPECT_TRUE(segments_meet({0, 0}, {2, 0}, {1, -1}, {1, 1}));
  EXPECT_TRUE(segments_meet({0, 0}, {2, 0}, {1, 0}, {1, 1}));
  EXPECT_TRUE(segments_meet({0, 0}, {2, 0}, {1, 0}, {5, 0}));
  EXPECT_FALSE(segments_meet({0, 0}, {2, 0}, {3, 0}, {5, 0}));
  EXPECT_FALSE(segments_meet({0, 0}, {2, 0}, {0, 1}, {2, 1}));
  EXPECT_FALSE(segments_meet({0, 0}, {2, 0}, {3, -1}, {3, 1}));
}

TEST(Polygon, ContainsCountsTheEdgeAsInside) {
  EXPECT_TRUE(contains(kL, {1, 4}));
  EXPECT_FALSE(contains(kL, {4, 4}));
  EXPECT_TRUE(contains(kL, {2, 3}));
  EXPECT_TRUE(contains(kL, {6, 1}));
}

TEST(Polygon, AMitreOfASquareCornerIsOnTheDiagonal) {
  const Vec2 m = mitre({0, 0}, {12, 0}, {12, 9}, 0.5, 0.5);
  EXPECT_NEAR(m.x, 11.5, 1e-12);
  EXPECT_NEAR(m.y, 0.5, 1e-12);
  const Vec2 uneven = mitre({0, 0}, {12, 0}, {12, 9}, 0.5, 1.0);
  EXPECT_NEAR(uneven.x, 11.0, 1e-12);
  EXPECT_NEAR(uneven.y, 0.5, 1e-12);
  const Vec2 straight = mitre({0, 0}, {1, 0}, {2, 0}, 0.5, 0.5);
  EXPECT_NEAR(straight.y, 0.5, 1e-12);
}

TEST(Polygon, LargestCircleOfARectangleAndOfATriangleIsTheKnownOne) {
  EXPECT_NEAR(largest_inscribed_circle(kRect, 1e-6).radius, 4.5, 1e-6);
  // Right triangle 3-4-5: inradius (3 + 4 − 5) / 2 = 1.
  EXPECT_NEAR(largest_inscribed_circle({{0, 0}, {4, 0}, {0, 3}}, 1e-6).radius, 1.0, 1e-6);
}

TEST(Polygon, LargestRectangleOfATurnedRectangleIsItself) {
  const auto flat = large_inscribed_rectangle(kRect, 0.05);
  EXPECT_NEAR(flat.area(), 108.0, 1e-6);
  const auto tilted = large_inscribed_rectangle(turned(kRect, 30 * kDegree), 0.05, 36);
  EXPECT_LE(tilted.area(), 108.0 + 1e-9);
  EXPECT_GT(tilted.area(), 104.0);
}

TEST(Polygon, LargestRectangleNeverLeavesThePolygon) {
  std::mt19937 random(7);
  for (int round = 0; round < 40; ++round) {
    const Polygon p = random_star(random);
    const auto r = large_inscribed_rectangle(p, 0.05, 9);
    const Vec2 u{std::cos(r.turn), std::sin(r.turn)};
    for (double s : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
      for (double t : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
        // A hair inside: the rectangle may touch an edge.
        const Vec2 at = r.centre + u * (s * r.length * 0.999) + left_of(u) * (t * r.width * 0.999);
        EXPECT_TRUE(contains(p, at)) << "seed 7, round " << round;
      }
    }
  }
}

TEST(Polygon, TrianglesAddUpToTheAreaOfRandomStars) {
  std::mt19937 random(11);
  for (int round = 0; round < 200; ++round) {
    Polygon p = random_star(random);
    if (round % 2 == 1) std::reverse(p.begin(), p.end());
    double sum = 0.0;
    for (const auto& t : triangles_of(p)) {
      const double a = 0.5 * cross(t[1] - t[0], t[2] - t[0]);
      EXPECT_GT(a, 0.0);
      sum += a;
    }
    EXPECT_NEAR(sum, std::abs(signed_area(p)), 1e-9) << "seed 11, round " << round;
  }
}

TEST(Polygon, CornersInLineAreCutWithoutLoss) {
  double sum = 0.0;
  for (const auto& t :
       triangles_of({{0, 0}, {1, 0}, {2, 0}, {2, 1}, {2, 2}, {1, 2}, {0, 2}, {0, 1}})) {
    sum += 0.5 * cross(t[1] - t[0], t[2] - t[0]);
  }
  EXPECT_NEAR(sum, 4.0, 1e-12);
}

// Long, thin and ragged: edges that are left out as too far would be the nearest somewhere.
TEST(Polygon, the_largest_inscribed_circle_is_measured_from_every_edge) {
  std::mt19937 random(20260603);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  for (int round = 0; round < 30; ++round) {
    Polygon polygon;
    const int n = 4 + 10 * round;
    for (int k = 0; k < n; ++k) polygon.push_back({0.1 * k, from(0.0, 0.3)});
    for (int k = n; k-- > 0;) polygon.push_back({0.1 * k, from(0.35, 0.7)});
    const Circle circle = largest_inscribed_circle(polygon, 1e-4);
    EXPECT_EQ(circle.radius, distance_to_edges(polygon, circle.centre));
    EXPECT_TRUE(contains(polygon, circle.centre));
    for (int k = 0; k < 2000; ++k) {
      const Vec2 p{from(0.0, 0.1 * (n - 1)), from(0.0, 0.7)};
      if (!contains(polygon, p)) continue;
      ASSERT_LE(distance_to_edges(polygon, p), circle.radius + 1e-4);
    }
  }
}

TEST(Polygon, the_nearest_edge_is_the_first_of_the_least_distances) {
  std::mt19937 random(20260604);
  std::uniform_int_distribution<int> on(-6, 6);
  for (int round = 0; round < 2000; ++round) {
    Polygon polygon;
    for (int k = 0; k < 12; ++k)
      polygon.push_back({0.1 * on(random), 0.1 * on(random)});  // many edges as near as others
    const Vec2 p{0.1 * on(random), 0.1 * on(random)};
    int first = -1;
    double least = 1e300;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const double d = distance_to_segment(p, polygon[i], polygon[following(polygon, i)]);
      if (d >= least) continue;
      least = d;
      first = static_cast<int>(i);
    }
    const NearestOnEdge found = nearest_on_edges(polygon, p);
    EXPECT_EQ(found.edge, first);
    EXPECT_EQ(found.distance, least);
  }
}

}  // namespace
}  // namespace hummock::geom

// The largest circle between solids: closed forms, and a fine grid that knows no search.
#include "geometry/plan/free_circle.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace hummock::geom {
namespace {

void add_box(std::vector<SolidPiece>& out, Vec2 lo, Vec2 hi) {
  out.push_back({lo, Vec2{hi.x, lo.y}, hi});
  out.push_back({lo, hi, Vec2{lo.x, hi.y}});
}

// Distance from p to a box, not by triangles: 0 inside.
double to_box(Vec2 p, Vec2 lo, Vec2 hi) {
  return std::hypot(std::max({lo.x - p.x, 0.0, p.x - hi.x}),
                    std::max({lo.y - p.y, 0.0, p.y - hi.y}));
}

TEST(FreeCircle, where_two_slots_cross_it_touches_the_four_corners) {
  constexpr double g = 0.045;
  std::vector<SolidPiece> solids;
  for (const double x : {-1.0 - 0.5 * g, 0.5 * g}) {
    for (const double y : {-1.0 - 0.5 * g, 0.5 * g}) add_box(solids, {x, y}, {x + 1.0, y + 1.0});
  }
  const Circle circle = largest_free_circle(solids, {{{-0.5, -0.5}, {0.5, 0.5}}, {}, 0.0, 1e-6});
  EXPECT_NEAR(circle.radius, g / std::sqrt(2.0), 1e-6);
  EXPECT_LE(circle.radius, g / std::sqrt(2.0));
}

TEST(FreeCircle, its_middle_stays_below_the_ceiling) {
  std::vector<SolidPiece> solids;
  add_box(solids, {-1.0, -1.0}, {1.0, 0.0});
  const std::vector<Vec2> ceiling{{-1.0, 0.3}, {0.0, 0.3}, {0.0, 0.5}, {1.0, 0.5}};
  const Circle circle =
      largest_free_circle(solids, {{{-0.5, 0.0}, {0.5, 2.0}}, ceiling, 0.0, 1e-4});
  EXPECT_NEAR(circle.radius, 0.5, 1e-4);
  EXPECT_GE(circle.centre.x, 0.0);
}

// The window is cut into squares, the last of which reach beyond it: to where all is open, and
// where a search by the room that is left would never end.
TEST(FreeCircle, what_lies_open_beyond_the_window_is_not_searched) {
  std::vector<SolidPiece> solids;
  add_box(solids, {-5.0, -5.0}, {0.27, 0.0});
  add_box(solids, {-5.0, 0.1}, {0.27, 5.0});
  const Circle circle = largest_free_circle(solids, {{{0.0, 0.0}, {0.25, 0.1}}, {}, 0.0, 1e-6});
  EXPECT_NEAR(circle.radius, 0.05, 1e-6);
}

TEST(FreeCircle, one_no_larger_than_asked_for_is_none) {
  std::vector<SolidPiece> solids;
  add_box(solids, {-1.0, -1.0}, {-0.1, 1.0});
  add_box(solids, {0.1, -1.0}, {1.0, 1.0});
  const Box2 window{{-0.2, -0.5}, {0.2, 0.5}};
  EXPECT_EQ(largest_free_circle(solids, {window, {}, 0.1, 1e-4}).radius, 0.0);
  EXPECT_NEAR(largest_free_circle(solids, {window, {}, 0.09, 1e-4}).radius, 0.1, 1e-4);
}

TEST(FreeCircle, among_random_boxes_it_is_that_of_a_fine_grid) {
  std::mt19937_64 random(7);
  const auto uniform = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int round = 0; round < 20; ++round) {
    std::vector<std::pair<Vec2, Vec2>> boxes;
    std::vector<SolidPiece> solids;
    for (int k = 0; k < 12; ++k) {
      const Vec2 lo{uniform(-1.2, 1.0), uniform(-1.2, 1.0)};
      boxes.push_back({lo, lo + Vec2{uniform(0.05, 0.8), uniform(0.05, 0.8)}});
      add_box(solids, boxes.back().first, boxes.back().second);
    }
    constexpr double kStep = 0.005;
    double most = 0.0;
    for (int i = -200; i <= 200; ++i) {
      for (int j = -200; j <= 200; ++j) {
        double d = 1e300;
        for (const auto& [lo, hi] : boxes) d = std::min(d, to_box({i * kStep, j * kStep}, lo, hi));
        most = std::max(most, d);
      }
    }
    const Circle found = largest_free_circle(solids, {{{-1.0, -1.0}, {1.0, 1.0}}, {}, 0.0, 1e-4});
    EXPECT_GE(found.radius, most - 1e-4) << round;
    EXPECT_LE(found.radius, most + kStep) << round;  // a node is at most this far from any middle
  }
}

// Every piece at every place, in the same order of places: the search as it was before it left out
// what is far.
double plain_clearance(const std::vector<SolidPiece>& solids, Vec2 p) {
  double least = 1e300, deepest = -1.0;
  for (const SolidPiece& t : solids) {
    double d = 1e300;
    bool inside = cross(t[1] - t[0], t[2] - t[0]) != 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
      const Vec2 a = t[k], ab = t[(k + 1) % 3] - a;
      const double s = dot(ab, ab) > 0.0 ? std::clamp(dot(p - a, ab) / dot(ab, ab), 0.0, 1.0) : 0.0;
      const Vec2 off = p - lerp(a, t[(k + 1) % 3], s);
      d = std::min(d, dot(off, off));
      if (cross(ab, p - a) * cross(t[1] - t[0], t[2] - t[0]) < 0.0) inside = false;
    }
    if (inside) deepest = std::max(deepest, d);
    least = std::min(least, d);
  }
  return deepest >= 0.0 ? -std::sqrt(deepest) : std::sqrt(least);
}

TEST(FreeCircle, what_is_left_out_as_too_far_changes_no_digit) {
  std::mt19937 random(20260602);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  for (int round = 0; round < 40; ++round) {
    std::vector<SolidPiece> solids;
    for (int k = 0; k < 3 + 4 * round; ++k) {
      const Vec2 at{from(-1.2, 1.2), from(-1.2, 1.2)};
      const auto near = [&] { return at + Vec2{from(-0.4, 0.4), from(-0.4, 0.4)}; };
      solids.push_back(k % 5 == 0 ? SolidPiece{at, near(), at} : SolidPiece{at, near(), near()});
    }
    const Circle found = largest_free_circle(solids, {{{-1.0, -0.5}, {1.0, 0.5}}, {}, 0.0, 1e-5});
    if (found.radius > 0.0) {
      EXPECT_EQ(found.radius, plain_clearance(solids, found.centre)) << round;
    }
    for (int k = 0; k < 2000; ++k)
      ASSERT_LE(plain_clearance(solids, {from(-1.0, 1.0), from(-0.5, 0.5)}), found.radius + 1e-5);
  }
}

}  // namespace
}  // namespace hummock::geom

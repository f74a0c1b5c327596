// Lines through balls, cones and cylinders against points asked one by one.
#include "geometry/mesh/round_volume.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/mesh/round_bounds.h"

namespace hummock::geom {
namespace {

bool holds(RoundKind kind, Vec3 p) {
  if (kind == RoundKind::ellipsoid) {
    const double z = 2.0 * p.z - 1.0;
    return p.x * p.x + p.y * p.y + z * z <= 1.0;
  }
  if (p.z < 0.0 || p.z > 1.0) return false;
  const double radius = kind == RoundKind::cone ? 1.0 - p.z : 1.0;
  return p.x * p.x + p.y * p.y <= radius * radius;
}

// Length ahead by 20,000 points along the line, each in or out by the body's inequality.
TEST(RoundVolume, length_of_a_line_inside_is_that_of_its_points_inside) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> unit_range(-1.0, 1.0);
  const auto any = [&] { return Vec3{unit_range(random), unit_range(random), unit_range(random)}; };
  int met = 0;
  for (int trial = 0; trial < 600; ++trial) {
    const auto kind = static_cast<RoundKind>(trial % 3);
    RoundVolume v{kind, any() * 3.0, any() + Vec3{2, 0, 0}, any() + Vec3{0, 2, 0},
                  any() + Vec3{0, 0, 3}};
    const RoundBody body(v);
    const Vec3 from = any() * 6.0;
    const Vec3 aim = v.foot + v.c * 0.5 + any() * 1.5;
    const Vec3 direction = unit(trial % 7 == 0 ? v.c : aim - from);
    constexpr int kPoints = 20000;
    constexpr double kFar = 25.0;
    int inside = 0;
    for (int k = 0; k < kPoints; ++k)
      inside += holds(kind, body.into(from + direction * (kFar * (k + 0.5) / kPoints))) ? 1 : 0;
    met += inside > 0 ? 1 : 0;
    ASSERT_NEAR(body.length_ahead(from, direction), kFar * inside / kPoints, 2.1 * kFar / kPoints)
        << "trial " << trial;
  }
  EXPECT_GT(met, 300);
}

// Closed forms: through the middle, and across a cone at half its height.
TEST(RoundVolume, has_the_chords_of_a_ball_a_cylinder_and_a_cone) {
  const Vec3 foot{1, 2, 3}, a{2, 0, 0}, b{0, 2, 0}, c{0, 0, 4};
  const Vec3 east{1, 0, 0};
  EXPECT_NEAR(RoundBody({RoundKind::ellipsoid, foot, a, b, c}).length_ahead({-9, 2, 5}, east), 4.0,
              1e-12);
  EXPECT_NEAR(RoundBody({RoundKind::ellipsoid, foot, a, b, c}).length_ahead({1, 2, 5}, east), 2.0,
              1e-12);  // from its middle
  EXPECT_NEAR(RoundBody({RoundKind::cone, foot, a, b, c}).length_ahead({-9, 2, 5}, east), 2.0,
              1e-12);
  EXPECT_NEAR(RoundBody({RoundKind::cylinder, foot, a, b, c}).length_ahead({1, 2, -9}, {0, 0, 1}),
              4.0, 1e-12);
  EXPECT_EQ(RoundBody({RoundKind::cone, foot, a, b, c}).length_ahead({9, 2, 5}, east), 0.0);
}

// The box touches the body: no point of it lies outside, and some lie near each side.
TEST(RoundVolume, has_a_box_that_fits) {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> unit_range(-1.0, 1.0);
  const auto any = [&] { return Vec3{unit_range(random), unit_range(random), unit_range(random)}; };
  for (int trial = 0; trial < 30; ++trial) {
    const auto kind = static_cast<RoundKind>(trial % 3);
    const RoundVolume v{kind, any(), any() + Vec3{2, 0, 0}, any() + Vec3{0, 2, 0},
                        any() + Vec3{0, 0, 3}};
    const Box3 box = bounds(v);
    Box3 met;
    for (int k = 0; k < 60000; ++k) {
      const double turn = kPi * unit_range(random), z = 0.5 * (1.0 + unit_range(random));
      const double r = kind == RoundKind::cone       ? 1.0 - z
                       : kind == RoundKind::cylinder ? 1.0
                                                     : 2.0 * std::sqrt(z * (1.0 - z));
      met.add(v.foot + v.a * (r * std::cos(turn)) + v.b * (r * std::sin(turn)) + v.c * z);
    }
    for (const auto& [inner, outer] : {std::pair{met.lo.x, box.lo.x},
                                       {met.lo.y, box.lo.y},
                                       {met.lo.z, box.lo.z},
                                       {-met.hi.x, -box.hi.x},
                                       {-met.hi.y, -box.hi.y},
                                       {-met.hi.z, -box.hi.z}}) {
      EXPECT_GE(inner, outer - 1e-12);
      EXPECT_LE(inner, outer + 0.05);
    }
  }
}

}  // namespace
}  // namespace hummock::geom

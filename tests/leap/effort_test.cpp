#include "engine/leap/physics/effort.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/leap/physics/arcs.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kGravity = 9.80665;  // m/s², standard

double least_speed(double x, double z) {
  return std::sqrt(2.0 * kGravity * effort(x, z, 1.0));
}
double least_angle(double x, double z) {
  return std::atan(least_apex(x, z) / x) / geom::kDegree;
}

// Classical least take-off speed v² = g(z + √(z² + x²)) at 45° + ½·atan(z/x); worked values.
TEST(Effort, AgreesWithTheLeastTakeOffSpeedsOfTheClassicalCase) {
  EXPECT_NEAR(least_speed(3, 0), 5.4240160, 5e-7);
  EXPECT_NEAR(least_speed(0, 2), 6.2631142, 5e-7);
  EXPECT_NEAR(least_speed(1, 2), 6.4452801, 5e-7);
  EXPECT_NEAR(least_speed(2, 2), 6.8811841, 5e-7);
  EXPECT_NEAR(least_speed(3, 2.4), 7.8238021, 5e-7);
  EXPECT_NEAR(least_speed(3, 4), 9.3946714, 5e-7);
  EXPECT_NEAR(least_speed(1.5, 2.2), 6.9055666, 5e-7);
  EXPECT_NEAR(least_speed(4, -1.5), 5.2138327, 5e-7);
}

TEST(Effort, LaunchesAtTheClassicalAngle) {
  EXPECT_NEAR(least_angle(3, 0), 45.0, 1e-9);
  EXPECT_NEAR(least_angle(1, 2), 76.7175, 5e-5);
  EXPECT_NEAR(least_angle(2, 2), 67.5, 1e-9);
  EXPECT_NEAR(least_angle(3, 2.4), 64.3299, 5e-5);
  EXPECT_NEAR(least_angle(3, 4), 71.5651, 5e-5);
  EXPECT_NEAR(least_angle(1.5, 2.2), 72.8566, 5e-5);
  EXPECT_NEAR(least_angle(4, -1.5), 34.7220, 5e-5);
}

// A level flight 10.0 m long and 3.0 m high at its middle, in closed form: tan θ = 4·3/10 and
// v² = g (10/2)² (1 + tan²θ) / (2·3) give 9.985 m/s.
TEST(Effort, ALevelFlightOfKnownHeightLeavesTheGroundAtItsAngleAndSpeed) {
  const double w = 12.0;  // the middle of a level flight is w/4 high
  EXPECT_NEAR(std::atan(w / 10.0) / geom::kDegree, 50.1944, 5e-5);
  EXPECT_NEAR(std::sqrt(2.0 * kGravity * arc_effort(10.0, 0.0, w)), 9.985, 5e-4);
}

// Safety parabola z = v²/2g − g x²/(2v²) for v = 6 m/s, x = 0 … 5.
TEST(Effort, ItsEnvelopeIsTheParabolaOfSafety) {
  const double E = 36.0 / (2.0 * kGravity);
  const double z[] = {1.835489, 1.699286, 1.290675, 0.609658, -0.343766, -1.569598};
  for (int x = 0; x <= 5; ++x) {
    EXPECT_NEAR(envelope_height(x, E, 1.0), z[x], 5e-7);
    EXPECT_NEAR(effort(x, z[x], 1.0), E, 1e-6);
  }
}

// Channon et al. 2011: a gibbon's 8.3 m/s is "enough for a 3.5 m vertical leap".
TEST(Effort, TheGibbonsTakeOffSpeedIsItsStatedLeap) {
  EXPECT_NEAR(8.3 * 8.3 / (2.0 * kGravity), 3.5124, 5e-5);
  EXPECT_NEAR(effort(0.0, 3.5124, 1.0), 3.5124, 1e-12);
}

TEST(Effort, StretchedItPassesThroughBothPublishedFigures) {
  const double H = 0.9;
  for (const double D : {0.8, 1.8, 4.1}) {
    const double s = 2.0 * H / D;
    EXPECT_NEAR(effort(0.0, H, s), H, 1e-15);
    EXPECT_NEAR(effort(D, 0.0, s), H, 1e-15);
    EXPECT_NEAR(envelope_distance(0.0, H, s), D, 1e-14);
    EXPECT_NEAR(envelope_height(D, H, s), 0.0, 1e-15);
  }
}

TEST(Effort, SteppingOffCostsNothingAndDeepDropsKeepTheirDigits) {
  EXPECT_EQ(effort(0.0, -3.0, 1.0), 0.0);
  EXPECT_EQ(effort(0.0, 0.0, 1.0), 0.0);
  // For x ≪ |z|: e = x²/(4|z|)·(1 − …); the plain form would return 0 or noise here.
  EXPECT_NEAR(effort(1e-6, -10.0, 1.0) / (1e-12 / 40.0), 1.0, 1e-9);
}

// D < 2H: the least of both readings of the figures, which meet at z = 0.
TEST(Effort, DownwardsAShortLeaperTakesTheEasierReading) {
  const double H = 1.0;
  for (const double D : {0.5, 1.0, 1.9, 2.0, 3.0}) {
    const double s = 2.0 * H / D;
    for (const double r : {0.3, 1.0, 2.5}) {
      for (const double z : {-3.0, -0.7, -1e-9, 0.0, 0.4}) {
        const auto f = [&](double x) { return 0.5 * (z + std::sqrt(z * z + x * x)); };
        double share = f(s * r) / H;
        if (z < 0.0 && D < 2.0 * H) share = std::min(share, f(r) / (0.5 * D));
        EXPECT_NEAR(effort(r, z, s) / H, share, 1e-9) << D << " " << r << " " << z;
        const double E = effort(r, z, s);
        EXPECT_NEAR(envelope_height(r, E, s), z, 1e-6);
        EXPECT_NEAR(envelope_distance(z, E, s), r, 1e-6);
        if (z <= -1e-9 || z > 0.0) {
          EXPECT_NEAR(flight_effort(r, z, least_flight(r, z, s), s), E, 1e-9);
        }
      }
    }
  }
}

TEST(Effort, TheEffortBeyondAFlightIsNoneOfTheFlightsThere) {
  std::mt19937 random(8);
  std::uniform_real_distribution<double> far(0.1, 3.0), high(-3.0, 1.0), bulge(0.0, 8.0);
  for (int k = 0; k < 3000; ++k) {
    const double r = far(random);
    const double z = high(random);
    const double s = 2.3;
    const double w = std::max(z, 0.0) + bulge(random);
    for (double more = 0.0; more < 4.0; more += 0.21) {
      EXPECT_LE(effort_beyond(r, z, w, s, true), flight_effort(r, z, w + more, s) + 1e-12);
      if (w - more > z) {
        EXPECT_LE(effort_beyond(r, z, w, s, false), flight_effort(r, z, w - more, s) + 1e-12);
      }
    }
  }
}

TEST(Effort, ARiseOfTheCentreOfMassIsRefused) {
  Species species = test::test_animal();
  species.leap_height.measures = "centre of mass";
  EXPECT_THROW(ability_of(species), InputError);
}

TEST(Effort, NeverFallsWhenTheTargetGoesFartherOrHigher) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> far(0.0, 5.0), high(-4.0, 4.0), more(0.0, 1.0);
  for (int k = 0; k < 20000; ++k) {
    const double r = far(random);
    const double z = high(random);
    const double d = more(random);
    EXPECT_LE(effort(r, z, 1.3), effort(r + d, z, 1.3) + 1e-15);
    EXPECT_LE(effort(r, z, 1.3), effort(r, z + d, 1.3) + 1e-15);
    EXPECT_LE(effort(r + d, z, 1.3), effort(r, z, 1.3) + 0.5 * 1.3 * d + 1e-12);
    EXPECT_LE(effort(r, z + d, 1.3), effort(r, z, 1.3) + d + 1e-12);
  }
}

TEST(Effort, TheLeastBetweenTwoBoxesIsMetAndNeverUndercut) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> at(-2.0, 2.0), size(0.0, 1.0), share(0.0, 1.0);
  const auto box = [&] {
    geom::Box3 b;
    const geom::Vec3 lo{at(random), at(random), at(random)};
    b.add(lo);
    b.add(lo + geom::Vec3{size(random), size(random), size(random)});
    return b;
  };
  for (int k = 0; k < 300; ++k) {
    const geom::Box3 a = box();
    const geom::Box3 b = box();
    const double bound = effort_between(a, b, 0.8);
    const auto in = [&](const geom::Box3& c) {
      return geom::Vec3{c.lo.x + share(random) * (c.hi.x - c.lo.x),
                        c.lo.y + share(random) * (c.hi.y - c.lo.y),
                        c.lo.z + share(random) * (c.hi.z - c.lo.z)};
    };
    for (int i = 0; i < 50; ++i) {
      const geom::Vec3 p = in(a);
      const geom::Vec3 q = in(b);
      EXPECT_GE(effort(length(xy(q) - xy(p)), q.z - p.z, 0.8), bound - 1e-12);
    }
    // The nearest corners meet it.
    const auto nearest = [](double alo, double ahi, double blo, double bhi, double& p, double& q) {
      p = std::clamp(0.5 * (std::max(alo, blo) + std::min(ahi, bhi)), alo, ahi);
      q = std::clamp(p, blo, bhi);
      p = std::clamp(q, alo, ahi);
    };
    geom::Vec3 p{0, 0, a.hi.z}, q{0, 0, b.lo.z};
    nearest(a.lo.x, a.hi.x, b.lo.x, b.hi.x, p.x, q.x);
    nearest(a.lo.y, a.hi.y, b.lo.y, b.hi.y, p.y, q.y);
    EXPECT_NEAR(effort(length(xy(q) - xy(p)), q.z - p.z, 0.8), bound, 1e-12);
  }
}

TEST(Effort, ClearanceOfTheEnvelopeIsTheShortestDistanceToIt) {
  for (const double r : {0.0, 0.4, 1.5, 3.0}) {
    for (const double z : {0.8, 1.4, 2.5}) {
      double best = 1e9;
      for (int k = 0; k <= 200000; ++k) {
        const double q = 4.0 * k / 200000;
        best = std::min(best, std::hypot(q - r, envelope_height(q, 0.7, 1.0) - z));
      }
      const double expected = z <= envelope_height(r, 0.7, 1.0) ? 0.0 : best;
      EXPECT_NEAR(clearance_of_envelope(r, z, 0.7, 1.0), expected, 1e-5) << r << " " << z;
    }
  }
  for (const double r : {0.4, 1.5, 3.0}) {  // with the kink of a short leaper's envelope
    for (const double z : {-2.0, -0.5, 0.8}) {
      double best = 1e9;
      for (int k = 0; k <= 400000; ++k) {
        const double q = 8.0 * k / 400000;
        best = std::min(best, std::hypot(q - r, envelope_height(q, 0.7, 2.0) - z));
      }
      const double expected = z <= envelope_height(r, 0.7, 2.0) ? 0.0 : best;
      EXPECT_NEAR(clearance_of_envelope(r, z, 0.7, 2.0), expected, 1e-4) << r << " " << z;
    }
  }
}

TEST(Arcs, BothLaunchAnglesOfAnEffortPassThroughTheTarget) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> far(0.05, 4.0), high(-2.0, 2.0), more(1.0, 3.0);
  for (int k = 0; k < 2000; ++k) {
    const double x = far(random);
    const double z = high(random);
    const double E = effort(x, z, 1.0) * more(random);
    const Apexes b = apexes_at(x, z, E);
    for (const double w : {b.steep, b.flat}) {
      const double t = w / x;
      EXPECT_NEAR(x * t - x * x * (1 + t * t) / (4 * E), z, 1e-9 * (1.0 + E));
      EXPECT_NEAR(arc_effort(x, z, w), E, 1e-9 * E);
    }
    EXPECT_GE(b.steep, b.flat);
  }
}

TEST(Arcs, TheLeastBulgeNeedsTheLeastEffort) {
  for (const double x : {0.0, 0.3, 2.0}) {
    for (const double z : {-1.0, 0.0, 0.6}) {
      const double w = least_apex(x, z);
      EXPECT_NEAR(arc_effort(x, z, w), effort(x, z, 1.0), 1e-12);
      EXPECT_GE(arc_effort(x, z, w + 0.1), arc_effort(x, z, w));
    }
  }
}

TEST(Arcs, AChainStrayFromItsFlightByNoMoreThanItSays) {
  const Arc arc{{0, 0, 0}, {1.2, 0.9, 0.5}, 2.4};
  for (const double error : {0.05, 0.0125}) {
    const auto points = chain(arc, error);
    double worst = 0.0;
    const int n = static_cast<int>(points.size()) - 1;
    for (int k = 0; k < 4000; ++k) {
      const double u = (k + 0.5) / 4000;
      const int piece = std::min(n - 1, static_cast<int>(u * n));
      const geom::Vec3 on_chord = lerp(points[static_cast<std::size_t>(piece)],
                                       points[static_cast<std::size_t>(piece) + 1], u * n - piece);
      worst = std::max(worst, point_on(arc, u).z - on_chord.z);
      EXPECT_GE(point_on(arc, u).z, on_chord.z - 1e-12);
    }
    EXPECT_LE(worst, error);
    EXPECT_GT(worst, 0.1 * error);
  }
}

TEST(Arcs, AFlightIsStoppedByOneTriangleInItsWayAndPassesOverIt) {
  geom::Mesh wall;
  wall.vertices = {{1, -1, 0}, {1, 1, 0}, {1, 0, 0.5}};
  wall.triangles = {{0, 1, 2}};
  geom::RayScene scene;
  scene.add_mesh(wall, 0);
  scene.commit();
  const Arc low{{0, 0, 0}, {2, 0, 0}, 1.9};   // 0.475 m high half way
  const Arc high{{0, 0, 0}, {2, 0, 0}, 2.2};  // 0.55 m
  double share = 0.0;
  EXPECT_FALSE(arc_free(scene, low, 0.002, {}, &share));
  EXPECT_NEAR(share, 0.5, 0.1);
  EXPECT_TRUE(arc_free(scene, high, 0.002, {}));
}

}  // namespace
}  // namespace hummock::leap

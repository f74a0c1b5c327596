// The witness itself against what paper gives: the least take-off speed of a projectile, and yards
// of a few sheets whose way out has a formula.
//
// Least speed to a point at distance r and rise z: v² = g (z + √(z² + r²)), from the parabola of
// safety (Torricelli 1644; exercises in any text on mechanics, e.g. Halliday, Resnick & Walker,
// Fundamentals of Physics, projectile motion; from memory).
#include <gtest/gtest.h>

#include <cmath>

#include "tests/witness/way_out.h"

namespace hummock::witness {
namespace {

constexpr double kSide = 4.0;    // m, of the square pen
constexpr double kMargin = 2.0;  // m

Piece quad(const std::string& name, Vec3 a, Vec3 b, Vec3 c, Vec3 d) {
  return {name, "smooth", {a, b, c, d}, {{0, 1, 2}, {0, 2, 3}}};
}

Piece ground() {
  Piece out = quad("ground", {-kMargin, -kMargin, 0}, {kSide + kMargin, -kMargin, 0},
                   {kSide + kMargin, kSide + kMargin, 0}, {-kMargin, kSide + kMargin, 0});
  out.surface = "earth";
  return out;
}

Piece wall(const std::string& name, Vec2 a, Vec2 b, double high, double foot = 0.0) {
  return quad(name, at_height(a, foot), at_height(b, foot), at_height(b, high), at_height(a, high));
}

const std::vector<Vec2>& outline() {
  static const std::vector<Vec2> square{{0, 0}, {kSide, 0}, {kSide, kSide}, {0, kSide}};
  return square;
}

// A pen with one wall of height `front` (y = 0), the others out of reach.
std::vector<Piece> pen(double front) {
  std::vector<Piece> out{ground()};
  if (front > 0.0) out.push_back(wall("front", {0, 0}, {kSide, 0}, front));
  out.push_back(wall("east", {kSide, 0}, {kSide, kSide}, 9.0));
  out.push_back(wall("north", {kSide, kSide}, {0, kSide}, 9.0));
  out.push_back(wall("west", {0, kSide}, {0, 0}, 9.0));
  return out;
}

Piece box(const std::string& name, Vec3 lo, Vec3 hi) {
  Piece out;
  out.name = name;
  out.surface = "smooth";
  for (int k = 0; k < 8; ++k)
    out.corners.push_back({(k & 1) ? hi.x : lo.x, (k & 2) ? hi.y : lo.y, (k & 4) ? hi.z : lo.z});
  out.triangles = {{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
                   {2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}};
  return out;
}

Animal animal() {
  Animal out;
  out.leap_height = 1.0;
  out.leap_distance = 2.0;
  out.reach = 0.05;
  return out;
}

WayOut solved(std::vector<Piece> pieces, const Animal& a) {
  Search search;
  search.limit = 1.6 * a.leap_height;
  search.tries_a_foothold = 6000;
  return way_out(yard_of(std::move(pieces)), outline(), a, search);
}

// A point found lies within one sample of the best: 0.1 m along, which costs at most this.
double one_sample(double s, double r) {
  return 0.5 * s * s * 0.1 * (r + 0.1) / std::max(0.2, r + 0.1) + 0.005;
}

TEST(Projectile, TheEffortIsTheLeastOverAllLaunchAngles) {
  constexpr double g = 9.81;
  for (const double r : {0.2, 1.0, 2.5})
    for (const double z : {-1.5, -0.2, 0.0, 0.4, 1.2}) {
      double least = 1e300;
      for (double angle = -1.57; angle < 1.57; angle += 1e-4) {
        const double rise = r * std::tan(angle) - z;
        if (rise <= 0.0) continue;
        const double c = std::cos(angle);
        least = std::min(least, g * r * r / (2.0 * c * c * rise));  // v² through (r, z)
      }
      EXPECT_NEAR(2.0 * g * thrown_effort(r, z), least, 1e-4 * least) << r << " " << z;
    }
}

TEST(Projectile, TheEnvelopePassesThroughTheLedgeAndTheGap) {
  Animal a = animal();
  a.leap_distance = 1.3;
  EXPECT_NEAR(least_effort(a, 0.0, a.leap_height), a.leap_height, 1e-12);
  EXPECT_NEAR(least_effort(a, a.leap_distance, 0.0), a.leap_height, 1e-12);
}

TEST(Projectile, DownwardsTheEasierReadingCountsAndTheTwoMeetOnTheLevel) {
  Animal a = animal();
  a.leap_distance = 1.0;  // s = 2
  EXPECT_NEAR(least_effort(a, 0.7, -1e-9), least_effort(a, 0.7, 0.0), 1e-6);
  const double plain = 2.0 * thrown_effort(1.0, -2.0);
  EXPECT_LT(plain, thrown_effort(2.0, -2.0));
  EXPECT_NEAR(least_effort(a, 1.0, -2.0), plain, 1e-12);
}

TEST(Projectile, AnAnimalThatLeapsFartherThanTwiceItsHeightHasOneReadingHoweverSteepTheFlight) {
  Animal a = animal();
  a.leap_distance = 2.4;  // s = 0.833
  const double s = a.stretch(), r = 0.9, z = -0.6;
  for (const double w : {0.4, 1.0, 2.0, 3.0}) {
    const double stretched = (s * s * r * r + w * w) / (4.0 * (w - z));
    EXPECT_NEAR(effort_of_bulge(a, r, z, w), stretched, 1e-12) << w;
  }
}

TEST(Projectile, EveryBulgeGivesAFlightThroughBothEndsAtItsSpeed) {
  // w joins (0, 0) and (r, z): launch slope w/r, so E = r²(1 + (w/r)²)/(4(w − z)).
  const Animal a = animal();
  for (const double w : {0.9, 1.3, 2.0}) {
    const double r = 0.8, z = 0.5, t = w / r;
    EXPECT_NEAR(effort_of_bulge(a, r, z, w), r * r * (1 + t * t) / (4 * (w - z)), 1e-12);
  }
  EXPECT_NEAR(effort_of_bulge(a, 0.8, 0.5, least_bulge(a, 0.8, 0.5)), least_effort(a, 0.8, 0.5),
              1e-12);
}

TEST(Witness, ABareWallNeedsItsHeight) {
  const WayOut out = solved(pen(0.9), animal());
  ASSERT_TRUE(out.effort);
  EXPECT_GE(*out.effort, 0.9);
  EXPECT_LE(*out.effort, thrown_effort(0.1, 0.9) + 0.005);
}

TEST(Witness, AStepBeforeAWallGivesTheGreaterOfItsTwoLeaps) {
  for (const double gap : {0.3, 0.6, 0.9}) {
    std::vector<Piece> pieces = pen(1.5);
    pieces.push_back(box("step", {1.5, gap, 0}, {2.1, gap + 0.5, 0.7}));
    const WayOut out = solved(pieces, animal());
    ASSERT_TRUE(out.effort);
    const double truth = std::max(0.7, thrown_effort(gap, 0.8));
    EXPECT_GE(*out.effort, truth - 0.002) << gap;
    EXPECT_LE(*out.effort, truth + one_sample(1.0, gap)) << gap;
  }
}

TEST(Witness, AnOverhangAddsItsReach) {
  // From a block under open sky to the tip: e(distance to the tip, rise to it).
  std::vector<Piece> pieces = pen(1.5);
  pieces.push_back(
      quad("overhang", {0, 0, 1.5}, {kSide, 0, 1.5}, {kSide, 0.4, 1.5}, {0, 0.4, 1.5}));
  pieces.push_back(box("step", {1.5, 0.9, 0}, {2.1, 1.4, 0.7}));
  const WayOut out = solved(pieces, animal());
  ASSERT_TRUE(out.effort);
  const double truth = std::max(0.7, thrown_effort(0.5, 0.8));
  EXPECT_GE(*out.effort, truth - 0.002);
  EXPECT_LE(*out.effort, truth + one_sample(1.0, 0.5));
}

TEST(Witness, AScreenInTheWayIsFlownOverSteeply) {
  // The flight through the take-off (0.5 before the screen's foot), over the screen's top and onto
  // the wall: with y = t x − k x² through both, E = (1 + t²)/(4k).
  std::vector<Piece> pieces = pen(0.8);
  pieces.push_back(wall("screen", {0, 0.5}, {kSide, 0.5}, 1.2));
  Animal a = animal();
  a.crests = false;  // the screen's top is no footing here
  const WayOut out = solved(pieces, a);
  ASSERT_TRUE(out.effort);
  double least = 1e300;                           // over take-offs before the screen
  const double clear = 0.97 * 1.05 * a.radius();  // half the ball and its touching height
  for (double before = 0.03; before < 2.5; before += 0.005) {
    const double x1 = before, z1 = 1.2 + clear, x2 = before + 0.5, z2 = 0.8;
    const double k = (z1 / x1 - z2 / x2) / (x2 - x1);
    const double t = z1 / x1 + k * x1;
    if (k > 0.0) least = std::min(least, (1.0 + t * t) / (4.0 * k));
  }
  // Or by landing on the screen, seen as a top only: not lower than its height.
  EXPECT_GE(*out.effort, 1.2);
  EXPECT_LE(*out.effort, 1.06 * least);
}

TEST(Witness, ADropIsThrownAtTheSpeedOfTheLevelGap) {
  // From a tower over a wall; it comes onto the tower over a stair of small rises.
  Animal a = animal();
  a.leap_distance = 0.8;  // s = 2.5
  std::vector<Piece> pieces = pen(1.4);
  for (int k = 0; k < 10; ++k)
    pieces.push_back(
        box("stair", {1.5, 0.8 + 0.28 * k, 0}, {2.0, 1.08 + 0.28 * k, 2.4 - 0.25 * k}));
  const WayOut out = solved(pieces, a);
  ASSERT_TRUE(out.effort);
  const double truth = std::max(0.25, a.stretch() * thrown_effort(0.8, -1.0));
  EXPECT_GE(*out.effort, truth - 0.002);
  EXPECT_LE(*out.effort, truth + 0.03);
}

TEST(Witness, NoWayOutIsFoundOverWallsOutOfReachOrUnderAClosedRoof) {
  EXPECT_FALSE(solved(pen(1.7), animal()).effort);
  std::vector<Piece> roofed = pen(0.9);
  roofed.push_back(
      quad("roof", {0, 0, 0.9}, {kSide, 0, 0.9}, {kSide, kSide, 0.9}, {0, kSide, 0.9}));
  EXPECT_FALSE(solved(roofed, animal()).effort);
}

TEST(Witness, ASlitIsPassedOnlyWhenItIsWiderThanTheLeastOpening) {
  for (const double gap : {0.04, 0.09}) {  // the least opening is 0.06
    std::vector<Piece> pieces = pen(0.0);
    pieces.push_back(wall("front", {0, 0}, {kSide, 0}, 9.0, gap));
    const WayOut out = solved(pieces, animal());
    EXPECT_EQ(out.effort.has_value(), gap > 0.06) << gap;
    EXPECT_EQ(out.effort.value_or(0.0), 0.0);
  }
}

TEST(Witness, ASheetOnEdgeIsAStepOnlyWhileCrestsCount) {
  std::vector<Piece> pieces = pen(1.5);
  pieces.push_back(wall("screen", {1.0, 0.6}, {3.0, 0.6}, 0.8));
  Animal a = animal();
  const WayOut with = solved(pieces, a);
  ASSERT_TRUE(with.effort);
  EXPECT_NEAR(*with.effort, std::max(thrown_effort(0.05, 0.8), thrown_effort(0.6, 0.7)), 0.02);
  a.crests = false;
  const WayOut without = solved(pieces, a);
  EXPECT_GE(without.effort.value_or(9.0), 1.5);
}

TEST(Witness, AClimberReachesRoundALipNoLongerThanItsReach) {
  for (const double lip : {0.10, 0.60}) {
    std::vector<Piece> pieces = pen(2.4);
    pieces[1].surface = "mesh";
    pieces.push_back(quad("lip", {0, 0, 2.4}, {kSide, 0, 2.4}, {kSide, lip, 2.4}, {0, lip, 2.4}));
    Animal a = animal();
    a.climbs = {"mesh"};
    a.reach = 0.4;
    EXPECT_EQ(solved(pieces, a).effort.has_value(), lip < 0.4) << lip;
  }
}

}  // namespace
}  // namespace hummock::witness

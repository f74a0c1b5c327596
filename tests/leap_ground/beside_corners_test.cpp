// Flights past the corner of a hood that hangs over a ledge, against a witness that throws points
// at the boxes themselves, without the program's places, pieces or ladders.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>

#include "engine/leap/leap.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kLeapUp = 1.0, kLeapFar = 4.0;  // m, what the invented animal leaps
constexpr double kLeapStretch = 2.0 * kLeapUp / kLeapFar;
constexpr double kStepTop = 0.9, kLedgeTop = 1.15, kWallTop = 1.45;  // m, tops
constexpr double kClearBy = 0.006;  // m, by which a flight must pass everything to count

struct Block {
  Vec3 lo, hi;
};

struct HoodYard {
  Site site;
  Block step, ledge, hood;
};

// A step, a ledge by the low southern wall, and a hood that leaves a strip of the ledge bare and
// juts out beyond its western end, where the flights come from.
HoodYard hood_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  HoodYard yard{test::yard(4.1, 4.2, 2.6, SheetKind::solid), {}, {}, {}};
  yard.site.species = test::test_animal(kLeapUp, kLeapFar);
  yard.site.species.grip.value = 0.0;
  test::split_sections(yard.site);
  yard.site.boundary.sections[0].height = kWallTop;
  const double strip = between(0.04, 0.09), juts = between(0.01, 0.05);
  const Vec2 step{between(0.55, 0.85), between(2.9, 3.5)};
  const Vec2 ledge{between(2.1, 2.6), between(0.6, 0.8)};
  yard.step = {{step.x - 0.225, step.y - 0.3, 0.0}, {step.x + 0.225, step.y + 0.3, kStepTop}};
  yard.ledge = {{ledge.x - 0.225, ledge.y - 0.325, 0.5},
                {ledge.x + 0.225, ledge.y + 0.325, kLedgeTop}};
  yard.hood = {{yard.ledge.lo.x - juts, yard.ledge.lo.y + strip, 1.05},
               {yard.ledge.hi.x + 0.25, yard.ledge.hi.y + 0.15, 1.9}};
  for (const auto& [name, b] : {std::pair{"step", yard.step}, std::pair{"ledge", yard.ledge},
                                std::pair{"hood", yard.hood}}) {
    const Vec3 middle = (b.lo + b.hi) * 0.5;
    test::add_box(yard.site, name, {middle.x, middle.y}, b.hi - b.lo).z = b.lo.z;
  }
  return yard;
}

bool within(const Block& b, Vec3 p) {
  return p.x > b.lo.x - kClearBy && p.x < b.hi.x + kClearBy && p.y > b.lo.y - kClearBy &&
         p.y < b.hi.y + kClearBy && p.z > b.lo.z - kClearBy && p.z < b.hi.z + kClearBy;
}

// The flight of least effort between two points, 800 points of it: ½ (z + √(z² + (s r)²)) where
// it passes everything, else infinite. Near its ends only the hood may be in the way: it stands
// there.
double flown(const HoodYard& yard, Vec3 a, Vec3 b) {
  const double r = std::hypot(b.x - a.x, b.y - a.y), z = b.z - a.z;
  const double root = std::sqrt(z * z + kLeapStretch * kLeapStretch * r * r);
  const double w = z + root;
  constexpr int kPoints = 800;
  for (int k = 1; k < kPoints; ++k) {
    const double u = static_cast<double>(k) / kPoints;
    const Vec3 p{a.x + u * (b.x - a.x), a.y + u * (b.y - a.y), a.z + w * u * (1 - u) + z * u * u};
    if (within(yard.hood, p)) return 1e300;
    const bool off =
        std::hypot(p.x - a.x, p.y - a.y) > 0.05 && std::hypot(p.x - b.x, p.y - b.y) > 0.05;
    if (off && (within(yard.step, p) || within(yard.ledge, p))) return 1e300;
  }
  return 0.5 * w;
}

// The least of the flights from the step to the ledge's bare strip, over a close grid of points.
double over_a_grid(const HoodYard& yard) {
  double best = 1e300;
  constexpr int kFrom = 5, kX = 14, kY = 5;
  for (int i = 0; i <= kFrom; ++i) {
    for (int j = 0; j <= kFrom; ++j) {
      const auto& s = yard.step;
      const Vec3 a{std::lerp(s.lo.x, s.hi.x, i / double{kFrom}),
                   std::lerp(s.lo.y, s.hi.y, j / double{kFrom}), kStepTop};
      for (int m = 0; m <= kX; ++m) {
        for (int n = 0; n <= kY; ++n) {
          const Vec3 b{std::lerp(yard.ledge.lo.x, yard.ledge.hi.x, m * m / double{kX * kX}),
                       std::lerp(yard.ledge.lo.y, yard.hood.lo.y, n / double{kY}), kLedgeTop};
          best = std::min(best, flown(yard, a, b));
        }
      }
    }
  }
  return best;
}

TEST(BesideCorners, TheDemandIsNotAboveWhatAPointIsSeenToFly) {
  int shown = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const HoodYard yard = hood_yard(seed);
    const double leap = over_a_grid(yard);
    if (leap > 1.2) continue;  // no flight of these clears the hood
    ++shown;
    // Then over the wall from the strip's outer edge, which lies before it: 0.3 m up at most 0.5 m
    // away, far less than the step asks.
    const double demand = std::max(kStepTop, leap);
    const Result told =
        analyse(test::built(yard.site), {.required_margin = 1.3, .remedies = false});
    EXPECT_LE(told.bounded_below_m, demand + 1e-6);
    EXPECT_LE(told.margin * kLeapUp, demand + 1e-6);
  }
  EXPECT_GE(shown, 6);
}

}  // namespace
}  // namespace hummock::leap

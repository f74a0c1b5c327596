// Where a lower fence's overhang ends in a mitre beside a taller fence that is climbed, whoever
// hangs beside the mitre steps on to it: at any corner, any turn of the yard, mirrored or not.
// Truth by geometry alone: the mitre's side begins at the taller sheet itself.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/leap/leap.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

struct Corner {
  double degrees = 90.0;  // between the two fences
  double low = 1.3;       // m, of the lower fence
  double climbed = 0.1;   // m above the lower one's top, to where the taller one's cap begins
  Overhang of_low, of_tall;
};

Corner random_corner(std::mt19937_64& random) {
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  Corner c;
  c.degrees = between(75.0, 110.0);
  c.low = between(1.1, 1.4);
  c.of_low = {between(0.3, 0.45), between(20.0, 40.0) * geom::kDegree};
  c.of_tall = {between(0.15, 0.4), between(30.0, 60.0) * geom::kDegree};
  if (random() % 2 == 0) c.of_low.profile = Profile::curved;
  return c;
}

// The corner at the origin: the lower fence runs off along +x, the taller one at the angle of the
// corner from it; smooth walls close the yard.
Site yard_with(const Corner& c, double turn, bool mirrored) {
  Site site = test::yard(3.0, 3.0, 2.8, SheetKind::solid);
  const Vec2 up{3.0 * std::cos(c.degrees * geom::kDegree),
                3.0 * std::sin(c.degrees * geom::kDegree)};
  geom::Polygon& outline = site.boundary.outline;
  outline = {{0.0, 0.0}, {3.0, 0.0}, {3.0, 3.2}, up};
  test::split_sections(site);
  Section& low = site.boundary.sections[0];
  Section& tall = site.boundary.sections[3];
  low.height = c.low;
  low.cap = 0.4;
  low.overhang = c.of_low;
  tall.height = c.low + c.climbed + 0.3;
  tall.cap = 0.3;
  tall.overhang = c.of_tall;
  for (Section* s : {&low, &tall}) {
    s->kind = SheetKind::mesh;
    s->aperture = 0.03;
  }
  for (Vec2& p : outline) {
    if (mirrored) p.x = -p.x;
    p = {p.x * std::cos(turn) - p.y * std::sin(turn), p.x * std::sin(turn) + p.y * std::cos(turn)};
  }
  site.species = test::test_animal(1.0, 2.0);
  site.species.climbs.value = {"mesh"};
  site.species.grip.value = 0.1;
  return site;
}

double demand(const Site& site, double resolution) {
  Settings settings;
  settings.resolution = resolution;
  settings.remedies = false;
  const Result r = analyse(test::built(site), settings);
  EXPECT_TRUE(r.complete);
  return r.escape_leap_m.value_or(r.bounded_below_m);
}

constexpr double kTurns[] = {0.0, 15.0, 37.0, 45.0, 90.0};

TEST(MitredEnd, WhoHangsBesideItStepsOnToItAtAnyTurn) {
  std::mt19937_64 random(1207);
  for (int trial = 0; trial < 12; ++trial) {
    const Corner c = random_corner(random);
    const double resolution = trial % 3 == 0 ? 0.1 : trial % 3 == 1 ? 0.05 : 0.02;
    for (const double turn : kTurns) {
      for (const bool mirrored : {false, true}) {
        EXPECT_LE(demand(yard_with(c, turn * geom::kDegree, mirrored), resolution), 1e-9)
            << "seed 1207, trial " << trial << ", corner of " << c.degrees << ", turned by " << turn
            << (mirrored ? ", mirrored" : "") << ", resolution " << resolution;
      }
    }
  }
}

// The mesh ends too low beside it: the animal that leaps only from what it stands on is held.
TEST(MitredEnd, WhoHangsWellBelowItIsHeldAtAnyTurn) {
  std::mt19937_64 random(1208);
  for (int trial = 0; trial < 4; ++trial) {
    Corner c = random_corner(random);
    c.climbed = -0.15;
    for (const double turn : kTurns) {
      for (const bool mirrored : {false, true}) {
        EXPECT_GE(demand(yard_with(c, turn * geom::kDegree, mirrored), 0.05), 0.9)
            << "seed 1208, trial " << trial << ", turned by " << turn
            << (mirrored ? ", mirrored" : "");
      }
    }
  }
}

}  // namespace
}  // namespace hummock::leap

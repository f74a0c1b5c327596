// Where a lower fence's overhang ends square to it in a blunt corner beside a taller fence without
// one, a wedge is open between the two, down to the lower fence's top at its tip. Truth in closed
// form: straight up in the tip the animal gains that top less its grip, and over no point of the
// lower fence does less lead: at any corner, any turn, mirrored or not, at any resolution.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "engine/leap/leap.h"
#include "engine/model/build/overhang_profile.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

struct SquareEnd {
  double degrees = 120.0;  // between the two fences
  double low = 1.2, tall = 2.5, grip = 0.1, turn = 0.0;
  bool mirrored = false;
  Overhang overhang;
};

class Draws {
 public:
  explicit Draws(unsigned seed) : random_(seed) {}
  double between(double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random_() >> 11) * 0x1p-53;
  }
  bool either() { return between(0.0, 1.0) < 0.5; }

 private:
  std::mt19937_64 random_;
};

SquareEnd random_end(Draws& draws, double least_degrees, double most_degrees) {
  SquareEnd e;
  e.degrees = draws.between(least_degrees, most_degrees);
  e.low = draws.between(1.0, 1.4);
  e.tall = e.low + draws.between(0.6, 1.4);
  e.grip = draws.either() ? 0.1 : 0.0;
  e.turn = draws.between(0.0, 360.0) * geom::kDegree;
  e.mirrored = draws.either();
  e.overhang = {draws.between(0.3, 0.5), draws.between(20.0, 50.0) * geom::kDegree};
  if (draws.either()) e.overhang.profile = Profile::curved;
  return e;
}

// The corner at the origin: the lower fence runs off along +x, the taller ones close the yard; at
// its other end the lower fence is met at a right angle, flush.
Site yard_of(const SquareEnd& e) {
  Site site = test::yard(3.0, 3.0, e.tall, SheetKind::solid);
  geom::Polygon& outline = site.boundary.outline;
  outline = {{0.0, 0.0},
             {3.0, 0.0},
             {3.0, 3.0},
             Vec2{std::cos(e.degrees * geom::kDegree), std::sin(e.degrees * geom::kDegree)} * 3.0};
  test::split_sections(site);
  site.boundary.sections[0].height = e.low;
  site.boundary.sections[0].overhang = e.overhang;
  for (Vec2& p : outline) {
    p = {p.x * std::cos(e.turn) - p.y * std::sin(e.turn),
         p.x * std::sin(e.turn) + p.y * std::cos(e.turn)};
    if (e.mirrored) p.x = -p.x;
  }
  if (e.mirrored) {  // counter-clockwise again; its first edge stays the first
    std::reverse(outline.begin(), outline.end());
    std::rotate(outline.begin(), outline.begin() + 2, outline.end());
  }
  site.species = test::test_animal(1.2, 2.0);
  site.species.grip.value = e.grip;
  return site;
}

Result demand_of(const SquareEnd& e, double resolution) {
  Settings settings;
  settings.resolution = resolution;
  settings.remedies = false;
  return analyse(test::built(yard_of(e)), settings);
}

std::string told(const SquareEnd& e, int trial, double resolution) {
  return "trial " + std::to_string(trial) + ", corner of " + std::to_string(e.degrees) +
         ", resolution " + std::to_string(resolution) + (e.mirrored ? ", mirrored" : "");
}

constexpr double kResolutions[] = {0.1, 0.05, 0.02};

TEST(SquareEnd, TheWedgeBesideItIsOpenDownToItsTip) {
  Draws draws(2011);
  for (int trial = 0; trial < 40; ++trial) {
    const SquareEnd e = random_end(draws, 100.0, 150.0);
    const double truth = e.low - e.grip;
    for (const double resolution : kResolutions) {
      const Result r = demand_of(e, resolution);
      ASSERT_TRUE(r.escape_leap_m) << told(e, trial, resolution);
      EXPECT_LE(*r.escape_leap_m, truth + 1e-9) << told(e, trial, resolution);
      EXPECT_GE(*r.escape_leap_m, truth - 5e-3) << told(e, trial, resolution);
      EXPECT_GE(*r.escape_leap_m + r.resolution_bound_m, truth - 5e-3)
          << told(e, trial, resolution);
    }
  }
}

// Where the end is cut along the taller fence, or square in a right angle, no wedge is left: out
// leads the tip alone, and the demand told falls short of it by a piece of its edge at most.
TEST(SquareEnd, FlushWithTheTallerFenceItIsShut) {
  Draws draws(2012);
  for (int trial = 0; trial < 20; ++trial) {
    SquareEnd e = random_end(draws, 60.0, 90.0);
    if (trial % 2 == 0) e.degrees = 90.0;
    const double truth = e.low + profile_of(e.overhang).rise_at(1.0) - e.grip;
    for (const double resolution : kResolutions) {
      const Result r = demand_of(e, resolution);
      EXPECT_GE(r.escape_leap_m.value_or(r.bounded_below_m), truth - 5e-3)
          << told(e, trial, resolution);
    }
  }
}

}  // namespace
}  // namespace hummock::leap

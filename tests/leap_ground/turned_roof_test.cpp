// L-shaped yards under a roof of their own outline, turned and mirrored: what is told at one turn
// is never above what is flown at another. The roof's rim bends at the posts, and its gap over the
// fence is the least opening itself, or a little more or less.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/leap/leap.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

class Yards {
 public:
  explicit Yards(std::uint64_t seed) : random_(seed) {}

  Site next() {
    Site site = test::yard(1.0, 1.0, 1.5, SheetKind::solid);
    const double w = between(4.5, 6.0), d = between(4.0, 5.5);
    const double x = between(2.0, 3.0), y = between(2.0, 2.6);
    site.boundary.outline = {{0.0, 0.0}, {w, 0.0}, {w, y}, {x, y}, {x, d}, {0.0, d}};
    site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
    test::split_sections(site);
    if (random_() % 3 != 0) {
      for (Section& s : site.boundary.sections) s.height = between(1.2, 1.9);
    }
    site.roof = Roof{};
    site.roof->kind = SheetKind::mesh;
    site.roof->aperture = 0.02;
    site.roof->above_fence = 0.05;
    site.roof->sag = random_() % 2 == 0 ? 0.0 : 0.1;
    site.roof->outline = site.boundary.outline;
    test::add_box(site, "box", {between(0.6, w - 0.6), between(0.6, y - 0.6)},
                  {0.5, 0.4, between(0.3, 0.9)})
        .turn = between(0.0, 1.5);
    site.species = test::test_animal(1.0, 2.0);
    site.species.crouch->value = 0.05;
    site.species.perch->value = 0.0;
    const double head[] = {0.05, 0.05, 0.0485, 0.0525};
    site.species.least_opening.value = head[random_() % 4];
    return site;
  }

 private:
  double between(double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random_() >> 11) * 0x1p-53;
  }
  std::mt19937_64 random_;
};

Site turned(Site site, double degrees, bool mirrored) {
  const double angle = degrees * geom::kDegree;
  const auto moved = [&](Vec2 p) {
    if (mirrored) p.x = -p.x;
    return Vec2{p.x * std::cos(angle) - p.y * std::sin(angle),
                p.x * std::sin(angle) + p.y * std::cos(angle)};
  };
  for (Vec2& p : site.boundary.outline) p = moved(p);
  for (Vec2& p : *site.roof->outline) p = moved(p);
  for (Object& o : site.objects) {
    o.at = moved(o.at);
    o.turn = (mirrored ? -o.turn : o.turn) + angle;
  }
  return site;
}

TEST(TurnedRoof, NoTurnIsToldMoreThanIsFlownAtAnother) {
  const std::uint64_t seed = 5501;
  Yards yards(seed);
  Settings settings;
  settings.remedies = false;
  for (int trial = 0; trial < 24; ++trial) {
    const Site site = yards.next();
    double told = 0.0;     // m, the most
    double flown = 1e300;  // m, the least
    for (const double degrees : {0.0, 15.0, 37.0, 90.0}) {
      for (const bool mirrored : {false, true}) {
        const Result r = analyse(test::built(turned(site, degrees, mirrored)), settings);
        EXPECT_TRUE(r.complete);
        told = std::max(told, r.escape_leap_m.value_or(r.bounded_below_m));
        if (r.escape_leap_m) flown = std::min(flown, *r.escape_leap_m + r.resolution_bound_m);
      }
    }
    EXPECT_LE(told, flown + 1e-6) << "seed " << seed << ", trial " << trial << ", head "
                                  << site.species.least_opening.value;
  }
}

}  // namespace
}  // namespace hummock::leap

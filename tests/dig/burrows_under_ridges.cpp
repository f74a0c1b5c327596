// What a burrow leaves to dig to a fence with a skirt where its end lies under a ridge: over random
// ridges, burrows, skirts, turns and shifts against the cell of the ground. Two witnesses, which
// share nothing with the search. From above: the straight tunnel out of the burrow's wall or bottom
// to the skirt's foot, and up, from places 5 mm apart. From below: no tunnel is shorter than the
// straight way from the lowest the burrow may come, wherever the ground is.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/dig/dig.h"
#include "geometry/terrain/heightfield.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

struct Ridged {
  double crest = 1.0, radius = 0.5, height = 0.6;  // m from the fence; of the ridge
  double skirt = 0.5, deep = 0.5, wide = 0.24;     // m
  double end = 1.3, length = 0.8;                  // m from the fence; of the burrow
  double askew = 0.0;                              // m along the fence, of its mouth
  double turn = 0.0;                               // rad
  Vec2 shift;
};

Ridged random_ridge(std::mt19937_64& random) {
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  Ridged r;
  r.crest = between(0.8, 1.3);
  r.radius = between(0.3, 0.7);
  r.height = between(0.2, 0.9);
  r.skirt = between(0.3, 0.8);
  r.deep = between(0.2, 0.6);
  r.wide = between(0.0, 0.3);
  r.end = r.crest + between(-0.1, 0.4);
  r.length = between(0.3, 1.0);
  r.askew = between(-0.5, 0.5);
  r.turn = between(0.0, 360.0) * geom::kDegree;
  r.shift = {between(-0.1, 0.1), between(-0.1, 0.1)};
  return r;
}

// Of a yard whose fence with the skirt lies along y = 0.
Vec2 placed(const Ridged& r, Vec2 p) {
  return Vec2{p.x * std::cos(r.turn) - p.y * std::sin(r.turn),
              p.x * std::sin(r.turn) + p.y * std::cos(r.turn)} +
         r.shift;
}

Site yard_of(const Ridged& r) {
  Site site = test::yard(6.0, 5.0, 2.0, SheetKind::solid);
  site.ground.cell = 0.05;
  test::split_sections(site);
  for (Section& s : site.boundary.sections) s.buried = 4.0;
  site.boundary.sections[0].buried = r.skirt;
  for (Vec2& p : site.boundary.outline) p = placed(r, p);
  GroundForm ridge;
  ridge.kind = FormKind::ridge;
  ridge.path = {placed(r, {-20.0, r.crest}), placed(r, {26.0, r.crest})};
  ridge.radius = r.radius;
  ridge.height = r.height;
  site.ground.forms.push_back(ridge);
  Burrow burrow;
  burrow.name = "set";
  burrow.mouth = placed(r, {3.0 + r.askew, r.end + r.length});
  burrow.path = {placed(r, {3.0, r.end})};
  burrow.depth = r.deep;
  burrow.diameter = r.wide;
  site.burrows = {burrow};
  site.species.dig_depth.value = 10.0;
  site.species.dig_length.value = 6.0;
  return site;
}

// The straight leg, below the ground all the way.
bool below_ground(const Model& model, const Ridged& r, double along, Vec2 from, Vec2 to) {
  for (int k = 0; k <= 200; ++k) {
    const Vec2 p = lerp(from, to, k / 200.0);
    if (p.y > geom::height_at(model.ground, placed(r, {along, p.x})) - 1e-6) return false;
  }
  return true;
}

struct Bounds {
  double above = 1e300, below = 1e300;
};

Bounds bounds_of(const Model& model, const Ridged& r) {
  constexpr double kApart = 5e-3;  // m
  const Vec2 foot{0.0, -r.skirt};
  const auto ground = [&](double x, double y) {
    return geom::height_at(model.ground, placed(r, {x, y}));
  };
  Bounds bounds;
  const int n = static_cast<int>(std::hypot(r.length, r.askew) / kApart) + 1;
  for (int k = 0; k <= n; ++k) {
    const double x = 3.0 + r.askew * k / n, y = r.end + r.length * k / n;
    const double wall = y - 0.5 * r.wide;
    const double axis = ground(x, y) - r.deep;
    for (const Vec2 from : {Vec2{wall, axis}, Vec2{y, axis - 0.5 * r.wide}}) {
      const double straight = geom::distance(from, foot) + r.skirt;
      if (straight < bounds.above && below_ground(model, r, x, from, foot)) bounds.above = straight;
    }
    const double lowest = -r.deep - 0.5 * r.wide;  // the ground is at 0 or above
    const Vec2 nearest{wall, std::clamp(foot.y, lowest, 1e3)};
    bounds.below = std::min(bounds.below, geom::distance(nearest, foot) + r.skirt);
  }
  return bounds;
}

TEST(BurrowsUnderRidges, LeaveNoMoreToDigThanTheStraightTunnelAndNoLessThanFromTheLowest) {
  const std::uint64_t seed = 2711;
  std::mt19937_64 random(seed);
  int straight = 0;
  for (int trial = 0; trial < 24; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    const Ridged r = random_ridge(random);
    const Model model = test::built(yard_of(r));
    const Bounds bounds = bounds_of(model, r);
    const Result result = analyse(model);
    ASSERT_EQ(result.burrows.size(), 1U);
    ASSERT_TRUE(result.burrows[0].left_to_dig_m.has_value());
    EXPECT_LE(*result.burrows[0].left_to_dig_m, bounds.above + 2e-3);
    EXPECT_GE(*result.burrows[0].left_to_dig_m, bounds.below - 2e-3);
    straight += bounds.above < 1e299 ? 1 : 0;
  }
  EXPECT_GT(straight, 12);
}

}  // namespace
}  // namespace hummock::dig

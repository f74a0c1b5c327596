// What a burrow leaves to dig beside a gate: askew past the end of a deep skirt, under the gate's
// footing. Closed form: level from its wall to the footing under the nearest point of the gate, at
// the footing's depth, and up; nothing else leads out, as the skirt is far deeper. Over random
// gates, burrows, turns, mirrored or not; the footing is as thin as may be, and counts whole.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include "engine/dig/dig.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

struct BesideGate {
  double from = 2.5, wide = 1.0;                // m, of the gate along the fence
  double footing = 0.4;                         // m deep
  double aside = 0.4, off = 0.5;                // m, of the burrow's end: past the gate's end; in
  double length = 0.8, deep = 0.7, bore = 0.2;  // m
  bool beyond = true;                           // past the gate's far end
  double turn = 0.0;                            // rad
};

constexpr double kThin = 0.02;  // m, of the footing

Site yard_with(const BesideGate& g) {
  Site site = test::yard(6.0, 5.0, 2.0, SheetKind::solid);
  for (Vec2& p : site.boundary.outline)
    p = {p.x * std::cos(g.turn) - p.y * std::sin(g.turn),
         p.x * std::sin(g.turn) + p.y * std::cos(g.turn)};
  for (Section& s : site.boundary.sections) {
    s.buried = 4.0;
    s.footing = Footing{g.footing, kThin};
  }
  test::add_gate(site, 0, g.from, g.wide, 1.8).under_gap = 0.0;
  const double x = g.beyond ? g.from + g.wide + g.aside : g.from - g.aside;
  const auto placed = [&](Vec2 p) {
    return Vec2{p.x * std::cos(g.turn) - p.y * std::sin(g.turn),
                p.x * std::sin(g.turn) + p.y * std::cos(g.turn)};
  };
  Burrow burrow;
  burrow.name = "set";
  burrow.mouth = placed({x, g.off + g.length});
  burrow.path = {placed({x, g.off})};
  burrow.depth = g.deep;
  burrow.diameter = g.bore;
  site.burrows = {burrow};
  site.species.dig_depth.value = 10.0;
  site.species.dig_length.value = 6.0;
  return site;
}

TEST(BurrowsBesideGates, LeaveTheWayAskewUnderTheGate) {
  const std::uint64_t seed = 2713;
  std::mt19937_64 random(seed);
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int trial = 0; trial < 24; ++trial) {
    SCOPED_TRACE("seed " + std::to_string(seed) + ", trial " + std::to_string(trial));
    BesideGate g;
    g.from = between(1.5, 3.0);
    g.footing = between(0.2, 0.6);
    g.aside = between(-0.3, 0.9);
    g.off = between(0.3, 0.9);
    g.length = between(0.4, 1.0);
    g.deep = g.footing + between(0.0, 0.3);
    g.bore = between(0.0, 0.25);
    g.beyond = random() % 2 == 0;
    g.turn = between(0.0, 360.0) * geom::kDegree;
    const double way = std::hypot(std::max(0.0, g.aside), g.off) - 0.5 * g.bore;
    const Result result = analyse(test::built(yard_with(g)));
    ASSERT_EQ(result.burrows.size(), 1U);
    ASSERT_TRUE(result.burrows[0].left_to_dig_m.has_value());
    EXPECT_NEAR(*result.burrows[0].left_to_dig_m, way + g.footing, 2.0 * kThin);
  }
}

}  // namespace
}  // namespace hummock::dig

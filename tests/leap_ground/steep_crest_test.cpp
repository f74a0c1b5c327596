// Crests steeper than anything is stood on, walked where the perch is 0.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

double demand_of(const Result& r) {
  return r.escape_leap_m.value_or(r.bounded_below_m);
}

// At any slope up to 85°, whichever way the crest runs; what is steeper is an upright corner. From
// the upper end over the fence: e of the way down and across, less half the trunk and its round.
TEST(SteepCrest, IsAPlaceWhicheverWayItRuns) {
  for (const double above_level : {61.0, 75.0, 85.0, 87.0}) {
    for (const double turn : {-90.0, -53.0, 11.0, 143.0}) {
      Site site = test::yard(10, 10, 2.5, SheetKind::solid);
      site.species = test::test_animal(1.0, 2.0);
      site.species.perch.reset();  // 0, the careful value
      Object& tree = test::add_tree(site, "leaning tree", {5, 5}, 4.0, {0.1, 0.1, 0.1}, 3.9);
      tree.crown.reset();
      tree.trunk_diameter = 0.4;
      tree.lean = (90.0 - above_level) * geom::kDegree;
      tree.turn = turn * geom::kDegree;
      const double demand = demand_of(analyse(test::built(site)));
      if (above_level > 86.0) {
        EXPECT_GT(demand, 1.9) << turn;
        continue;
      }
      const double up = 3.9 * std::sin(above_level * geom::kDegree);
      const double out = 3.9 * std::cos(above_level * geom::kDegree) *
                         std::max(std::abs(std::cos(tree.turn)), std::abs(std::sin(tree.turn)));
      EXPECT_NEAR(demand, effort(5.0 - out, 2.5 - up, 1.0), 0.15) << above_level << " " << turn;
    }
  }
}

}  // namespace
}  // namespace hummock::leap

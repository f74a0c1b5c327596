// A moat that runs out under the fence is waded inside it.
#include <gtest/gtest.h>

#include "engine/water/water.h"
#include "tests/support/yard.h"

namespace hummock::water {
namespace {

TEST(Moat, its_shallow_ends_outside_the_fence_are_no_way_across) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.ground.cell = 0.05;
  Water moat;
  moat.name = "moat";
  moat.outline = {{-0.5, 4}, {10.5, 4}, {10.5, 6}, {-0.5, 6}};
  moat.depth = 0.5;
  moat.side_slope = 45.0 * geom::kDegree;
  site.waters = {moat};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.basins.size(), 1u);
  EXPECT_NEAR(result.basins[0].wading_route_deepest_m, 0.5,
              0.051);  // the bed, within a cell's rise
  EXPECT_TRUE(result.basins[0].parts_the_yard);
}

}  // namespace
}  // namespace hummock::water

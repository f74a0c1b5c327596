// The careful ends of shipped figures, and that an answer which rests on them says so.
#include <gtest/gtest.h>

#include "engine/leap/rows/rests_on.h"
#include "engine/site/read_site.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

RestsOn behind_a_bare_wall(const char* species, double height) {
  Site site = test::yard(4, 4, height, SheetKind::solid);
  site.species = read_species(species);
  leap::Settings settings;
  settings.remedies = false;
  const Model model = test::built(site);
  return leap::what_it_rests_on(model, settings, leap::analyse(model, settings));
}

// The used leap is half of what is told of a larger fox; 2.0 m is told. Its grip of 0.1 m counts.
TEST(Shipped, ABareWallHoldsACorsacIfItLeapsLessThanIsTold) {
  EXPECT_EQ(read_species("corsac").leap_height.value, 1.0);
  EXPECT_EQ(read_species("corsac").leap_height.careful, 2.0);
  for (const double height : {1.41, 1.7}) {
    const RestsOn rests = behind_a_bare_wall("corsac", height);
    ASSERT_EQ(rests.list.size(), 1U) << height;
    EXPECT_EQ(rests.list[0].key, "leap_height");
    EXPECT_EQ(rests.list[0].careful_value, "2.00 m");
    EXPECT_NEAR(std::stod(rests.list[0].breaking_value), height - 0.1, 0.02);
  }
  EXPECT_TRUE(behind_a_bare_wall("corsac", 2.2).list.empty());
}

TEST(Shipped, AFenceHoldsAWallabyIfItLeapsLessThanIsTold) {
  EXPECT_EQ(read_species("bennetts-wallaby").leap_height.careful, 1.8);
  const RestsOn rests = behind_a_bare_wall("bennetts-wallaby", 1.75);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].careful_value, "1.80 m");
  // That it hooks no edge is from memory: a tenth of a metre may be added.
  EXPECT_FALSE(behind_a_bare_wall("bennetts-wallaby", 1.88).list.empty());
  EXPECT_TRUE(behind_a_bare_wall("bennetts-wallaby", 1.95).list.empty());
}

}  // namespace
}  // namespace hummock

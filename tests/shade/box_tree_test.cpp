// The tree of boxes finds those that a look at each finds.
#include "engine/shade/beam/box_tree.h"

#include <gtest/gtest.h>

#include <random>

#include "engine/shade/beam/casters.h"
#include "engine/shade/beam/may_shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

TEST(BoxTree, finds_every_box_that_may_shade_a_box_and_no_other) {
  std::mt19937 random(21);
  std::uniform_real_distribution<double> unit_range(0.0, 1.0);
  std::size_t found = 0;
  for (int trial = 0; trial < 40; ++trial) {
    Model m = yard(0, 0, 60, 60, 1.0);
    for (int k = 0; k < trial * 3; ++k) {
      const Vec3 lo{60 * unit_range(random), 60 * unit_range(random), 3 * unit_range(random)};
      add_solid(m, "box",
                box_mesh(lo, lo + Vec3{0.1 + 3 * unit_range(random), 0.1 + unit_range(random),
                                       0.1 + 2 * unit_range(random)}));
    }
    const std::vector<Caster> casters = casters_of(m);
    const BoxTree tree(boxes_of(casters));
    for (const sun::Position& s : twenty_suns()) {
      const SunRay sun = sun_ray(s.towards);
      const Vec3 lo{60 * unit_range(random), 60 * unit_range(random), unit_range(random)};
      const geom::Box3 box{lo, lo + Vec3{6 * unit_range(random), 6, 0.5}};
      std::vector<int> expected;
      for (std::size_t k = 0; k < casters.size(); ++k)
        if (MayShade(box, {sun.run, sun.run}, unit(sun.run))(casters[k].box))
          expected.push_back(static_cast<int>(k));
      EXPECT_EQ(tree.near(box, std::vector<SunRay>{sun}), expected);
      found += expected.size();
    }
  }
  EXPECT_GT(found, 500U);
}

}  // namespace
}  // namespace hummock::shade

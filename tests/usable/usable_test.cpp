// Ground an animal can be on and can live on.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/usable/body_patches.h"
#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_area.h"
#include "geometry/plan/distance_grid.h"
#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

using geom::kDegree;
using tests::add_solid;
using tests::box;
using tests::rectangle;
using tests::surface;

// 8 × 8 m, cell 0.1; an animal 0.4 m long, 0.12 wide, 0.2 high, its head 0.08.
Model yard_model() {
  Model model =
      tests::bare_model(geom::level_ground({{-1, -1}, {9, 9}}, 0.1, 0.0), rectangle(0, 0, 8, 8));
  Species& s = model.site.species;
  s.stand_slope.value = 40 * kDegree;
  s.body.value = {0.4, 0.12, 0.2};
  s.least_opening.value = 0.08;
  s.wade_depth.value = 0.05;
  return model;
}

double living(const Model& model) {
  const usable::UsableGround ground(model);
  return usable::living_area(model, ground, usable::find_nodes(model, ground));
}

TEST(DistanceGrid, MeetsEveryNodeAskedOneByOne) {
  std::mt19937 random(11);
  const geom::Grid g{2.0, -1.0, 0.25, 23, 17};
  for (const int share : {2, 30, 400}) {
    std::vector<std::uint8_t> marked(g.size());
    for (auto& m : marked) m = random() % static_cast<unsigned>(share) == 0 ? 1 : 0;
    marked[5] = 1;
    const auto far = geom::distance_to_marked(g, marked, geom::Beyond::unmarked);
    const auto ringed = geom::distance_to_marked(g, marked, geom::Beyond::marked);
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i) {
        double least = 1e300;
        for (int b = 0; b < g.ny; ++b)
          for (int a = 0; a < g.nx; ++a)
            if (marked[g.index(a, b)] != 0)
              least = std::min(least, geom::distance(g.node(i, j), g.node(a, b)));
        EXPECT_NEAR(far[g.index(i, j)], least, 1e-12);
        const double rim = g.cell * std::min({i + 1, j + 1, g.nx - i, g.ny - j});
        EXPECT_NEAR(ringed[g.index(i, j)], std::min(least, rim), 1e-12);
      }
  }
}

TEST(UsableGround, IsTheWholeOfAnOpenYard) {
  EXPECT_NEAR(living(yard_model()), 64.0, 1e-9);
}

// Two stones that stand in each other: from inside, the first surface met upwards is the lower face
// of the upper one.
TEST(UsableGround, IsNowhereInsideStonesInAPile) {
  Model model = yard_model();
  add_solid(model, "lower", box({3.2, 3.2, 0.0}, {4.8, 4.8, 0.9}));
  add_solid(model, "upper", box({3.2, 3.2, 0.45}, {4.8, 4.8, 1.35}));
  EXPECT_NEAR(living(model), 64.0 - 1.6 * 1.6, 4 * 1.6 * 0.1);
  EXPECT_TRUE(usable::UsableGround(model).in_solid({4.05, 4.03}));
  EXPECT_FALSE(usable::UsableGround(model).in_solid({2.05, 4.03}));
}

TEST(UsableGround, IsNowhereInsideAPillarThroughARoof) {
  Model model = yard_model();
  add_solid(model, "pillar", box({3.1, 3.1, 0.0}, {4.9, 4.9, 2.82}));
  tests::add_roof(model, geom::flat_sheet(rectangle(0, 0, 8, 8), 2.8));
  EXPECT_NEAR(living(model), 64.0 - 1.8 * 1.8, 4 * 1.8 * 0.1);
}

TEST(UsableGround, ToBeOnAndToLiveOnAreTwoAnswers) {
  Model model = yard_model();
  tests::add_roof(model, geom::flat_sheet(rectangle(0, 0, 4, 8), 0.12));  // it can crouch there
  const usable::UsableGround ground(model);
  EXPECT_TRUE(ground.can_be({2.03, 4.01}));
  EXPECT_FALSE(ground.can_stand({2.03, 4.01}));
  EXPECT_TRUE(ground.can_stand({6.03, 4.01}));
  const auto steep = [](double x, double) { return 2.0 * x; };
  Model bank = yard_model();
  bank.ground = surface({-1, -1}, {9, 9}, 0.1, steep);
  EXPECT_TRUE(usable::UsableGround(bank).can_be({2.03, 4.01}));
  EXPECT_FALSE(usable::UsableGround(bank).can_stand({2.03, 4.01}));
}

TEST(UsableGround, DeepWaterIsSwumButNotLivedOn) {
  Model model = yard_model();
  Water pool;
  pool.outline = rectangle(2, 2, 6, 6);
  pool.level = 0.5;
  model.site.waters.push_back(pool);
  Part sheet;
  sheet.kind = PartKind::water;
  sheet.source = 0;
  sheet.blocks_body = false;
  sheet.mesh = geom::flat_sheet(pool.outline, 0.5);
  model.parts.push_back(sheet);
  EXPECT_FALSE(usable::UsableGround(model).can_stand({4.03, 4.01}));
  EXPECT_TRUE(usable::UsableGround(model).can_be({4.03, 4.01})) << "no row says it does not swim";
  model.site.species.swims = Sourced<bool>{};
  model.site.species.swims->value = false;
  EXPECT_FALSE(usable::UsableGround(model).can_be({4.03, 4.01}));
  EXPECT_NEAR(living(model), 64.0 - 16.0, 16 * 0.1);
}

// Two long blocks 0.3 m apart: an animal 0.12 m wide passes, one of 0.5 m does not.
TEST(UsableGround, ASlotNarrowerThanTheBodyIsNoPlace) {
  Model model = yard_model();
  add_solid(model, "left", box({3.0, 1.0, 0.0}, {3.9, 7.0, 1.0}));
  add_solid(model, "right", box({4.2, 1.0, 0.0}, {5.0, 7.0, 1.0}));
  const double blocks = 6.0 * (0.9 + 0.8);
  EXPECT_NEAR(living(model), 64.0 - blocks, 2.4);
  model.site.species.body.value = {0.9, 0.5, 0.2};
  EXPECT_NEAR(living(model), 64.0 - blocks - 6.0 * 0.3, 1.2);
}

TEST(UsableGround, APatchTooSmallToLieInIsNone) {
  Model model = yard_model();  // a court of 0.6 × 0.6 m within walls 0.5 m thick
  add_solid(model, "south", box({3.0, 3.0, 0}, {4.6, 3.5, 1}));
  add_solid(model, "north", box({3.0, 4.1, 0}, {4.6, 4.6, 1}));
  add_solid(model, "west", box({3.0, 3.4, 0}, {3.5, 4.2, 1}));
  add_solid(model, "east", box({4.1, 3.4, 0}, {4.6, 4.2, 1}));
  model.site.leap_start = Vec2{3.8, 3.8};
  const usable::UsableGround ground(model);
  const usable::Nodes nodes = usable::find_nodes(model, ground);
  const std::size_t middle = nodes.grid.index(48, 48);  // (3.8, 3.8)
  EXPECT_NE(nodes.live[middle], 0);
  model.site.species.body.value = {1.2, 0.12, 0.2};
  const usable::UsableGround longer(model);
  const usable::Nodes too_long = usable::find_nodes(model, longer);
  EXPECT_NE(too_long.stand[middle], 0);
  EXPECT_EQ(too_long.live[middle], 0);
}

}  // namespace
}  // namespace hummock

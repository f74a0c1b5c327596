// Sight against an independent witness, and the same bits for any number of threads.
#include <gtest/gtest.h>
#include <tbb/global_control.h>

#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/sight/sight_json.h"
#include "engine/sight/viewing_eyes.h"
#include "tests/sight/watched_yard.h"

namespace hummock {
namespace {

using test::watched;

// Witness: every node and eye by one ray through a scene of its own with ground and stones; the
// fence is glass all round.
TEST(Sight, AgreesWithRaysOneByOneOnRandomYards) {
  std::mt19937 rng(4711);
  std::uniform_real_distribution<double> part(0.0, 1.0);
  for (int round = 0; round < 4; ++round) {
    SCOPED_TRACE("seed 4711, round " + std::to_string(round));
    Site site = watched(SheetKind::glass, 2.0 + part(rng), 2.0 + 3.0 * part(rng), 0.3 + part(rng));
    site.viewings[0].edge = round;
    site.ground.margin = 2.0;
    for (int k = 0; k < 5; ++k) {
      test::add_boulder(site, "stone " + std::to_string(k), {1 + 8 * part(rng), 1 + 6 * part(rng)},
                        {0.5 + part(rng), 0.5 + part(rng), 0.4 + 0.5 * part(rng)}, rng() % 1000);
      test::add_mound(site, {10 * part(rng), 8 * part(rng)}, 0.5 + 2 * part(rng), 0.6 * part(rng));
    }
    const Model model = test::built(site);
    const sight::Result r = sight::analyse(model);
    geom::RayScene scene;
    scene.add_ground(model.ground, kGroundId);
    for (const Part& p : model.parts)
      if (p.kind == PartKind::object || p.kind == PartKind::post) scene.add_mesh(p.mesh, 1);
    scene.commit();
    const sight::Land land(model);
    const sight::Viewpoint view = sight::viewpoints(model, land, 0.5).at(0);
    std::vector<Vec3> between;
    for (int halvings = 0; halvings < 3; ++halvings)
      for (const Vec3 eye : eyes_between(land, view, halvings)) between.push_back(eye);
    const geom::Grid& g = model.ground.grid;
    int asked = 0, differ = 0, missed = 0;
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i) {
        if (std::isnan(r.seen_by.at(i, j))) continue;
        const Vec2 foot = g.node(i, j);
        if (geom::distance_to_edges(model.outline, foot) < 0.01) continue;
        const Vec3 target = at_height(foot, model.ground.at(i, j) + 0.2);
        const auto sees = [&](const std::vector<Vec3>& eyes) {
          return std::any_of(eyes.begin(), eyes.end(),
                             [&](Vec3 eye) { return scene.segment_free(eye, target, 1e-4); });
        };
        ++asked;
        const bool told = r.seen_by.at(i, j) > 0.5F;
        const bool coarse = sees(view.eyes);
        const bool fine = coarse || sees(between);
        differ += (told && !fine) || (coarse && !told);
        missed += fine && !told;
      }
    EXPECT_GT(asked, 6000);
    EXPECT_LE(differ, asked / 1000);  // grazing rays, float against double
    EXPECT_LE(missed, asked / 50);    // seen from between the eyes alone (sight.h)
  }
}

TEST(Sight, OneThreadAndTwoGiveTheSameBits) {
  Site site = watched(SheetKind::mesh, 1.0, 8.0);
  test::add_boulder(site, "stone", {4, 4}, {1.2, 1.0, 0.8}, 5);
  test::add_tree(site, "tree", {7, 5}, 1.5, {2, 2, 2}, 1.0, 1.5);
  const Model model = test::built(site);
  const auto run = [&](std::size_t threads) {
    const tbb::global_control limit(tbb::global_control::max_allowed_parallelism, threads);
    return sight::analyse(model);
  };
  const sight::Result a = run(1), b = run(2);
  ASSERT_EQ(a.seen_by.values.size(), b.seen_by.values.size());
  EXPECT_EQ(std::memcmp(a.seen_by.values.data(), b.seen_by.values.data(),
                        a.seen_by.values.size() * sizeof(float)),
            0);
  EXPECT_EQ(sight::to_json(a, model).dump(), sight::to_json(b, model).dump());
}

}  // namespace
}  // namespace hummock

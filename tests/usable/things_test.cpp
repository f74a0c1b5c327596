// Lines and tops of things, and what is near or over, against what is asked face by face and node
// by node.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

#include "engine/usable/clear_between.h"
#include "engine/usable/kept_answers.h"
#include "engine/usable/thing_lines.h"
#include "engine/usable/thing_tops.h"
#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

Model yard_of_things(std::mt19937& random, int count) {
  const auto rough = [](double x, double y) { return 0.2 * std::sin(1.3 * x) * std::cos(y); };
  Model model = tests::bare_model(tests::surface({-1, -1}, {10, 9}, 0.1, rough),
                                  tests::rectangle(0, 0, 9, 8));
  model.site.species.stand_slope.value = 40 * geom::kDegree;
  model.site.species.body.value = {0.4, 0.12, 0.2};
  std::uniform_real_distribution<double> x(-0.5, 9.5), y(-0.5, 8.5), size(0.15, 0.9);
  for (int k = 0; k < count; ++k) {
    const Vec3 at{x(random), y(random), 0.1};
    tests::add_solid(model, "stone", tests::stone(at, size(random), 0.1, 7));
    const Vec3 lo{x(random), y(random), 0.3 + 0.5 * size(random)};
    tests::add_solid(model, "deck", tests::box(lo, lo + Vec3{size(random), size(random), 0.1}));
  }
  tests::commit_scene(model);
  return model;
}

double area_round(const std::vector<usable::PlanLine>& lines) {
  double twice = 0.0;
  for (const usable::PlanLine& line : lines) twice += cross(line.a, line.b);
  return 0.5 * std::abs(twice);
}

// By slabs across the heights: what of the triangle's plan lies between two levels.
double area_between(std::array<Vec3, 3> t, double low, double high) {
  const double whole = 0.5 * std::abs(cross(xy(t[1] - t[0]), xy(t[2] - t[0])));
  std::sort(t.begin(), t.end(), [](Vec3 a, Vec3 b) { return a.z < b.z; });
  const auto below = [&](double z) {  // share of the triangle
    const double a = t[0].z, b = t[1].z, c = t[2].z;
    if (z <= a) return 0.0;
    if (z >= c) return 1.0;
    if (z <= b) return (z - a) * (z - a) / ((b - a) * (c - a));
    return 1.0 - (c - z) * (c - z) / ((c - a) * (c - b));
  };
  return whole * std::max(0.0, below(high) - below(low));
}

TEST(ThingLines, RunRoundWhatOfEachFaceLiesBetweenTheLevels) {
  std::mt19937 random(5);
  const Model model = yard_of_things(random, 6);
  constexpr double kLow = 0.07, kHigh = 0.31;
  int cut = 0;
  for (const Part& part : model.parts)
    for (const geom::Triangle& t : part.mesh.triangles) {
      std::array<Vec3, 3> corners{};
      double least = 1e300, most = -1e300;
      for (std::size_t k = 0; k < 3; ++k) {
        corners[k] = part.mesh.vertices[t[k]];
        const double z = geom::height_at(model.ground, xy(corners[k]));
        least = std::min(least, z);
        most = std::max(most, z);
      }
      Part alone = part;
      alone.mesh.triangles = {t};
      std::vector<usable::PlanLine> lines;
      usable::add_lines_of(model, alone, kLow, kHigh, lines);
      const double expected = area_between(corners, least + kLow, most + kHigh);
      EXPECT_NEAR(area_round(lines), expected, 1e-9);
      if (lines.size() > 3) ++cut;
    }
  EXPECT_GT(cut, 20);
}

TEST(ThingLines, OfAPartAreThoseOfItsFacesInTurn) {
  std::mt19937 random(7);
  const Model model = yard_of_things(random, 4);
  for (const Part& part : model.parts) {
    std::vector<usable::PlanLine> whole, one_by_one;
    usable::add_lines_of(model, part, 0.05, 0.2, whole);
    for (const geom::Triangle& t : part.mesh.triangles) {
      Part alone = part;
      alone.mesh.triangles = {t};
      usable::add_lines_of(model, alone, 0.05, 0.2, one_by_one);
    }
    EXPECT_TRUE(whole == one_by_one);
  }
}

// Level decks under the open sky: their tops are where the node lies in their plan.
TEST(ThingTops, OfDecksAreAtTheirNodesAlone) {
  std::mt19937 random(13);
  Model model = tests::bare_model(geom::level_ground({{-1, -1}, {9, 9}}, 0.1, 0.0),
                                  tests::rectangle(0, 0, 8, 8));
  model.site.species.stand_slope.value = 40 * geom::kDegree;
  std::vector<geom::Box2> decks;
  std::uniform_real_distribution<double> in(0.1, 0.9);
  for (int j = -1; j < 9; j += 2)
    for (int i = -1; i < 9; i += 2) {
      const Vec2 lo{i + 0.013 + 0.4 * in(random), j + 0.017 + 0.4 * in(random)};
      const Vec2 hi = lo + Vec2{in(random), in(random)};
      tests::add_solid(model, "deck", tests::box(at_height(lo, 0.4), at_height(hi, 0.5)));
      decks.push_back({lo, hi});
    }
  tests::commit_scene(model);
  const geom::Grid& g = model.ground.grid;
  const std::vector<double> tops = usable::thing_tops(model, usable::UsableGround(model), g);
  int found = 0;
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i) {
      const Vec2 p = g.node(i, j);
      const bool over = geom::contains(model.outline, p) &&
                        std::any_of(decks.begin(), decks.end(), [&](const geom::Box2& b) {
                          return p.x > b.lo.x && p.x < b.hi.x && p.y > b.lo.y && p.y < b.hi.y;
                        });
      const double top = tops[g.index(i, j)];
      EXPECT_EQ(std::isnan(top), !over) << p.x << ' ' << p.y;
      if (!over) continue;
      EXPECT_NEAR(top, 0.5, 1e-5);
      ++found;
    }
  EXPECT_GT(found, 300);
}

// Where nodes are told to have no thing near, the lines between them are clear, each asked.
TEST(NearThings, LeavesOutOnlyWhatIsClear) {
  std::mt19937 random(17);
  int left_out = 0, shut = 0;
  for (int turn = 0; turn < 4; ++turn) {
    const Model model = yard_of_things(random, 10);
    const geom::Grid& g = model.ground.grid;
    const double height = turn % 2 == 0 ? 0.12 : 0.4;
    const auto near = usable::near_things(model, g, height);
    const auto beside = usable::beside_things(model, g);
    for (int j = 0; j + 1 < g.ny; ++j)
      for (int i = 0; i + 1 < g.nx; ++i)
        for (const auto& [a, b] : {std::pair{i + 1, j}, {i, j + 1}}) {
          const std::size_t n = g.index(i, j), m = g.index(a, b);
          const bool clear = usable::clear_between(model, g.node(i, j), g.node(a, b), height);
          if (!clear) ++shut;
          if (near[n] != 0 || near[m] != 0) continue;
          EXPECT_TRUE(clear) << i << ' ' << j;
          if (beside[n] != 0 || beside[m] != 0) ++left_out;
        }
  }
  EXPECT_GT(shut, 500);
  EXPECT_GT(left_out, 500);
}

TEST(NearThings, LeavesOutOnlyCellsWhoseEveryLineIsClear) {
  std::mt19937 random(37);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  int left_out = 0, shut = 0;
  for (int turn = 0; turn < 4; ++turn) {
    const Model model = yard_of_things(random, 10);
    const geom::Grid& g = model.ground.grid;
    const double height = turn % 2 == 0 ? 0.12 : 0.4;
    const auto near = usable::near_things(model, g, height);
    ASSERT_EQ(near.size(), g.size());
    for (int j = 0; j + 1 < g.ny; ++j)
      for (int i = 0; i + 1 < g.nx; ++i) {
        const Vec2 p = g.node(i, j) + Vec2{share(random), share(random)} * g.cell;
        bool away = usable::flat_enough(model.ground, i, j, height), clear = true;
        for (const auto& [a, b] : {std::pair{i, j}, {i + 1, j}, {i, j + 1}, {i + 1, j + 1}}) {
          away = away && near[g.index(a, b)] == 0;
          clear = clear && usable::clear_between(model, p, g.node(a, b), height);
        }
        if (!clear) ++shut;
        if (!away) continue;
        ++left_out;
        EXPECT_TRUE(clear) << i << ' ' << j;
      }
  }
  EXPECT_GT(shut, 500);
  EXPECT_GT(left_out, 5000);
}

// A ridge along a diagonal stops low lines across it.
TEST(NearThings, ABentCellIsNotFlatEnough) {
  geom::Heightfield ground = geom::level_ground({{0, 0}, {1, 1}}, 0.5, 0.0);
  EXPECT_TRUE(usable::flat_enough(ground, 0, 0, 0.2));
  ground.z[ground.grid.index(1, 0)] = ground.z[ground.grid.index(0, 1)] = 0.1;
  EXPECT_FALSE(usable::flat_enough(ground, 0, 0, 0.2));
  Model model = tests::bare_model(ground, tests::rectangle(0, 0, 1, 1));
  tests::commit_scene(model);
  EXPECT_FALSE(usable::clear_between(model, {0.0, 0.0}, {0.5, 0.5}, 0.2));
}

// A model that keeps its answers asks no line up where the sky is open; the other asks them all.
TEST(OpenSky, SparesNoAnswer) {
  std::mt19937 random(19);
  std::uniform_real_distribution<double> x(-1.2, 10.2), y(-1.2, 9.2);
  int open = 0, solid = 0, low = 0;
  for (int turn = 0; turn < 3; ++turn) {
    Model anew = yard_of_things(random, 12);
    anew.site.species.body.value = {0.8, 0.2, 0.6};  // too tall for under most decks
    Model kept = anew;
    usable::keep_answers(kept);
    const usable::OpenSky sky = usable::open_sky(anew);
    const usable::UsableGround on(kept), on_anew(anew);
    for (int k = 0; k < 5000; ++k) {
      const Vec2 p{x(random), y(random)};
      EXPECT_EQ(on.in_solid(p), on_anew.in_solid(p));
      EXPECT_EQ(on.can_be(p), on_anew.can_be(p));
      EXPECT_EQ(on.can_stand(p), on_anew.can_stand(p));
      if (on.in_solid(p)) ++solid;
      if (!on.in_solid(p) && !on.can_stand(p) && on.can_be(p)) ++low;
      if (sky.over(p)) ++open;
    }
  }
  EXPECT_GT(open, 3000);
  EXPECT_GT(solid, 300);
  EXPECT_GT(low, 100);
}

}  // namespace
}  // namespace hummock

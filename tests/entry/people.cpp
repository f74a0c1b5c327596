// People's way to a gate and through it: closed forms, and a flood of the same nodes as witness.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/entry/entry.h"
#include "engine/entry/rests_on.h"
#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::entry {
namespace {

// 8 × 6 m, 5 m of level ground round it; a gate in the south, x 3.5 to 4.5, its vestibule 2.6 m
// deep.
Site with_gate(double height = 2.0) {
  Site site = test::yard(8.0, 6.0, 2.6, SheetKind::solid);
  site.ground.margin = 5.0;
  Gate& gate = test::add_gate(site, 0, 3.5, 1.0, height);
  gate.window = true;
  gate.vestibule = Vestibule{2.6, true, true, false};
  return site;
}

GateRow row(const Site& site) {
  return analyse(test::built(site)).gates.at(0);
}

std::vector<std::string> ifs_of_faults(const Site& site) {
  const Model model = test::built(site);
  const RestsOn rests = what_it_rests_on(model, {}, analyse(model));
  std::vector<std::string> keys;
  for (const RestsOn& beside : rests.besides)
    for (const Assumption& a : beside.list) keys.push_back(a.key);
  std::erase_if(keys,
                [](const std::string& key) { return key != "headroom" && key != "keepers-way"; });
  return keys;
}

using Keys = std::vector<std::string>;

TEST(People, walk_upright_from_1_8_m_bend_from_1_5_and_pass_nothing_lower) {
  for (const double height : {0.3, 1.0, 1.48, 1.52, 1.7, 1.8, 2.2}) {
    const GateRow found = row(with_gate(height));
    EXPECT_EQ(found.people->goes(), height >= 1.5) << height;
    EXPECT_EQ(found.met, height >= 1.5) << height;
    EXPECT_NEAR(found.people->headroom_m(), std::min(height, 1.8), 0.0101) << height;
    const bool bends = height >= 1.5 && height < 1.8;
    EXPECT_EQ(ifs_of_faults(with_gate(height)), bends ? Keys{"headroom"} : Keys{}) << height;
  }
}

// A wall 6 m long beyond the second gate: a person needs 0.5 m to turn off, its leaf 1 m.
TEST(People, a_wall_beyond_the_second_gate_leaves_them_half_a_metre) {
  for (const double gap : {0.06, 0.45, 0.75, 1.05}) {
    Site site = with_gate();
    test::add_box(site, "wall", {4.0, -2.6 - gap - 0.05}, {6.0, 0.1, 2.5});
    const GateRow found = row(site);
    EXPECT_EQ(found.people->outside.goes, gap > 0.5) << gap;
    EXPECT_EQ(found.in_the_second_swing.empty(), gap > 1.0) << gap;
    EXPECT_EQ(found.met, gap > 1.0) << gap;
  }
}

TEST(People, a_leaf_that_outwards_has_no_room_may_open_into_a_deep_vestibule) {
  Site site = with_gate();
  test::add_box(site, "wall", {4.0, -2.6 - 1.4 - 0.75 - 0.05}, {6.0, 0.1, 2.5});
  site.boundary.gates[0].vestibule->depth = 4.0;  // 2.1 m, 1 m for the leaf
  EXPECT_TRUE(row(site).met);
  site.boundary.gates[0].vestibule->depth = 3.9;
  EXPECT_TRUE(row(site).met);
  site.objects[0].at.y = -2.6 - 0.75 - 0.05;
  site.boundary.gates[0].vestibule->depth = 2.6;
  EXPECT_FALSE(row(site).met);
}

// Along the fence's foot outside the ground is level, farther out it falls all round.
TEST(People, walk_slopes_up_to_thirty_degrees) {
  for (const double angle : {25.0, 29.0, 35.0}) {
    Site site = with_gate();
    GroundForm bank;
    bank.kind = FormKind::bench;
    bank.outline = {{-3.8, -3.8}, {11.8, -3.8}, {11.8, 9.8}, {-3.8, 9.8}};
    bank.level = -1.0;
    site.ground.level = -1.0 - std::tan(angle * geom::kDegree);
    bank.batter = 1.0;
    site.ground.forms = {bank};
    EXPECT_EQ(row(site).people->outside.goes, angle < 30.0) << angle;
  }
}

TEST(People, take_a_step_of_a_riser_and_no_higher_drop) {
  for (const double drop : {0.2, 0.23, 0.27, 1.0}) {
    Site site = with_gate();
    GroundForm terrace;
    terrace.kind = FormKind::bench;
    terrace.outline = {{-3.8, -3.8}, {11.8, -3.8}, {11.8, 9.8}, {-3.8, 9.8}};
    terrace.level = 0.0;
    site.ground.level = -drop;
    site.ground.forms = {terrace};
    EXPECT_EQ(row(site).people->outside.goes, drop < 0.24) << drop;
  }
}

TEST(People, come_in_over_no_water) {
  Site site = with_gate();
  Water pool;
  pool.name = "pool";
  pool.outline = {{0.3, 0.3}, {7.7, 0.3}, {7.7, 3.0}, {0.3, 3.0}};
  pool.depth = 0.5;
  site.waters = {pool};
  EXPECT_FALSE(row(site).people->through.goes);
  site.waters[0].outline = {{0.9, 0.9}, {7.1, 0.9}, {7.1, 5.1}, {0.9, 5.1}};  // a path round it
  EXPECT_TRUE(row(site).people->through.goes);
}

TEST(People, what_is_not_modelled_and_what_has_leaves_is_what_it_rests_on) {
  Site site = with_gate();
  EXPECT_EQ(ifs_of_faults(site), Keys{});
  site.ground.margin = 2.9;  // 0.3 m beyond the gate
  EXPECT_EQ(ifs_of_faults(site), Keys{"keepers-way"});
  Confirmation word;
  word.what = "keepers-way";
  word.by = "a keeper";
  word.on = "2026-05-01";
  site.confirmations = {word};
  const Model model = test::built(site);
  EXPECT_TRUE(what_it_rests_on(model, {}, analyse(model)).besides.at(0).list.at(0).confirmed());
  site = with_gate();
  Planting hedge;
  hedge.name = "hedge";
  hedge.outline = {{1.0, -3.5}, {7.0, -3.5}, {7.0, -2.7}, {1.0, -2.7}};
  hedge.height = 2.0;
  hedge.cover = 0.8;
  site.plantings = {hedge};
  EXPECT_EQ(ifs_of_faults(site), Keys{"keepers-way"});
  site.plantings[0].height = 0.4;  // waded through
  EXPECT_EQ(ifs_of_faults(site), Keys{});
}

// Four gates with headroom for bending, and of the animal an if: with the people's confirmed the
// row still rests on the animal's.
TEST(People, an_if_that_nobody_confirmed_is_not_crowded_out) {
  Site site = with_gate(1.6);
  for (const int edge : {1, 2, 3}) {
    Gate gate = site.boundary.gates[0];
    gate.name = "gate " + std::to_string(edge);
    gate.edge = edge;
    site.boundary.gates.push_back(gate);
  }
  Confirmation word;
  word.what = "headroom";
  word.by = "a keeper";
  word.on = "2026-05-01";
  site.confirmations = {word};
  site.species.leap_height.careful = 2.8;  // over the vestibules
  const Model model = test::built(site);
  const RestsOn rests = what_it_rests_on(model, {}, analyse(model));
  const std::vector<Assumption>& list = rests.besides.at(0).list;
  ASSERT_EQ(list.size(), kMostIfs);
  EXPECT_TRUE(std::any_of(list.begin(), list.end(),
                          [](const Assumption& a) { return a.key == "leap_height"; }));
  EXPECT_TRUE(std::any_of(list.begin(), list.end(),
                          [](const Assumption& a) { return a.key == "headroom"; }));
}

// Boxes of 2 m strewn before a gate without a vestibule, on level ground: the same answer as a
// flood of all nodes outside, with plain distances to rectangles. Seeded.
TEST(People, come_where_a_flood_of_every_node_comes) {
  std::mt19937 random(20261127);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  constexpr double kRadius = 0.245;  // m, less the rounding of floor_walk.cpp
  constexpr int kYards = 40;
  int away = 0;
  for (int k = 0; k < kYards; ++k) {
    Site site = with_gate();
    site.boundary.gates[0].vestibule.reset();
    site.ground.margin = 3.0;
    std::vector<geom::Box2> boxes;
    const auto add = [&](Vec2 at, Vec2 size) {
      test::add_box(site, "box " + std::to_string(boxes.size()), at, {size.x, size.y, 2.0});
      boxes.push_back({at - size * 0.5, at + size * 0.5});
    };
    // No way round the yard's corners, which the flood knows nothing of.
    add({-1.5, -0.3}, {3.0, 0.6});
    add({9.5, -0.3}, {3.0, 0.6});
    for (int b = 0; b < 20 + 4 * k; ++b)
      add({from(-2.5, 10.5), from(-2.7, -0.5)}, {from(0.1, 1.2), from(0.1, 0.4)});
    const auto free = [&](Vec2 p) {
      if (p.y > 1e-9) return false;
      // The fence's line and, beside the gate, its panels.
      const double past = std::max({3.5 - p.x, p.x - 4.5, 0.0});
      const double jamb = past > 0.0 ? -p.y : std::hypot(std::min(p.x - 3.5, 4.5 - p.x), p.y);
      if (jamb < kRadius && p.x > -kRadius && p.x < 8.0 + kRadius) return false;
      return std::none_of(boxes.begin(), boxes.end(), [&](const geom::Box2& box) {
        const double x = std::max({box.lo.x - p.x, p.x - box.hi.x, 0.0});
        const double y = std::max({box.lo.y - p.y, p.y - box.hi.y, 0.0});
        return std::hypot(x, y) < kRadius;
      });
    };
    // South of the fence alone: the flood's nodes, i along x from the gate's middle, j outwards.
    constexpr int kHalf = 69, kDeep = 29;
    std::vector<char> seen((2 * kHalf + 1) * (kDeep + 1), 0);
    std::vector<std::pair<int, int>> open;
    const auto mark = [&](int i, int j) -> char& {
      const auto row_at = static_cast<std::size_t>(j) * (2 * kHalf + 1);
      return seen[row_at + static_cast<std::size_t>(i + kHalf)];
    };
    for (int i = -5; i <= 5; ++i)
      if (free({4.0 + 0.1 * i, 0.0})) open.emplace_back(i, 0), mark(i, 0) = 1;
    bool flooded = false;
    while (!open.empty() && !flooded) {
      const auto [i, j] = open.back();
      open.pop_back();
      flooded = j == kDeep || std::abs(i) == kHalf;
      for (const auto& [di, dj] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
        const int a = i + di, b = j + dj;
        if (b < 0 || b > kDeep || std::abs(a) > kHalf || mark(a, b) != 0) continue;
        if (!free({4.0 + 0.1 * a, -0.1 * b})) continue;
        mark(a, b) = 1;
        open.emplace_back(a, b);
      }
    }
    EXPECT_EQ(row(site).people->outside.goes, flooded) << k;
    away += flooded ? 1 : 0;
  }
  EXPECT_GT(away, 5);
  EXPECT_LT(away, kYards - 5);
}

}  // namespace
}  // namespace hummock::entry

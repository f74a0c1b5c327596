// What is passed over unseen: nothing that would have counted.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "engine/shade/beam/eight_nodes.h"
#include "engine/shade/beam/round_shade.h"
#include "engine/shade/beam/shadow_nodes.h"
#include "engine/shade/cast/scan_shape.h"
#include "engine/shade/cast/shadow_boxes.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}
  double between(double lo, double hi) { return std::uniform_real_distribution<>(lo, hi)(engine_); }
  Vec3 in_box(double half) {
    return {between(-half, half), between(-half, half), between(-half, half)};
  }
  SunRay sun() {
    // From the lowest sun that is followed on: as many below a degree as there are above ten.
    const double high = kLowestSun * std::pow(80.0 * geom::kDegree / kLowestSun, between(0.0, 1.0));
    const double round = between(0.0, 2.0 * geom::kPi);
    return sun_ray(
        {std::cos(high) * std::sin(round), std::cos(high) * std::cos(round), std::sin(high)});
  }

 private:
  std::mt19937 engine_;
};

// Nodes a tenth of a metre apart on bumpy ground about `at`; even ones all inside.
Tile tile_about(Vec3 at, Random& random, bool even) {
  Tile tile;
  tile.ref = at;
  tile.count = static_cast<int>(kTileNodes);
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const double off = even ? 0.0 : random.between(-0.04, 0.04);
    tile.x[k] = static_cast<float>(0.1 * static_cast<double>(k % kTile) + off);
    const std::size_t row = k / kTile;
    tile.y[k] = static_cast<float>(0.1 * static_cast<double>(row) + off);
    tile.z[k] = static_cast<float>(random.between(-0.2, 0.2));
    tile.inside[k] = 1;
    tile.box.add(at + Vec3{tile.x[k], tile.y[k], tile.z[k]});
  }
  if (even) set_even(tile);
  return tile;
}

geom::RoundBody body_about(geom::RoundKind kind, Random& random) {
  const auto size = [&] { return random.between(0.3, 4.0); };
  const Vec3 lean = random.in_box(0.3);
  return geom::RoundBody({kind, Vec3{0, 0, 3} + random.in_box(1.0), Vec3{size(), 0, 0} + lean,
                          Vec3{0, size(), 0} - lean, Vec3{0, 0, size()} + lean});
}

// A place from which the line to the sun passes the body by a few metres at most.
Vec3 down_sun(const SunRay& sun, Random& random) {
  const double down = random.between(0.0, 6.0);
  return Vec3{0, 0, 3} + random.in_box(4.0) - Vec3{sun.run.x, sun.run.y, 1.0} * down;
}

// A box within another's gives a range within the other's; so it does of each node.
TEST(Culls, a_part_of_the_nodes_is_shaded_by_nothing_that_the_whole_is_not) {
  Random random(5);
  for (int turn = 0; turn < 2000; ++turn) {
    const SunRay sun = random.sun();
    const Vec2 along = unit(sun.run), across{-along.y, along.x};
    const Vec3 ref = random.in_box(30.0);
    const Tile tile = tile_about(ref + random.in_box(9.0), random, false);
    geom::Box3 more = tile.box;
    more.add(tile.ref + random.in_box(6.0));
    const ShadedBox part = shaded_box(tile.box, ref, sun, across);
    const ShadedBox whole = shaded_box(more, ref, sun, across);
    ASSERT_LE(whole.lowest, part.lowest);
    ASSERT_LE(whole.box.x0, part.box.x0);
    ASSERT_GE(whole.box.x1, part.box.x1);
    ASSERT_LE(whole.box.y0, part.box.y0);
    ASSERT_GE(whole.box.y1, part.box.y1);
    ASSERT_LE(whole.box.across0, part.box.across0);
    ASSERT_GE(whole.box.across1, part.box.across1);
    ShadowNodes nodes;
    shadow_nodes(tile, sun, ref, nodes);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      const auto a = static_cast<float>(across.x * nodes.qx[k] + across.y * nodes.qy[k]);
      const ShadowBox node{nodes.qx[k], nodes.qx[k], nodes.qy[k], nodes.qy[k], a, a, nodes.z[k]};
      ASSERT_TRUE(may_meet(node, part)) << "turn " << turn << ", node " << k;
    }
  }
}

bool holds(const ShadowBox& b, Vec2 across, const ShadowNodes& n, std::size_t k) {
  const double a = across.x * n.qx[k] + across.y * n.qy[k];
  return n.qx[k] >= b.x0 && n.qx[k] <= b.x1 && n.qy[k] >= b.y0 && n.qy[k] <= b.y1 &&
         a >= b.across0 && a <= b.across1;
}

TEST(Culls, a_crown_passes_over_no_run_of_nodes_it_shades) {
  Random random(20260101);
  std::size_t deepened = 0, passed = 0;
  for (int turn = 0; turn < 3000; ++turn) {
    const auto kind = static_cast<geom::RoundKind>(turn % 3);
    const SunRay sun = random.sun();
    const geom::RoundBody body = body_about(kind, random);
    const Vec3 at = down_sun(sun, random);
    const Tile tile = tile_about(at, random, turn % 2 == 0);
    const Vec3 ref = at - Vec3{random.between(0, 5), random.between(0, 5), 0.3};
    const RoundShade shade(body, sun, ref);
    ShadowNodes nodes;
    shadow_nodes(tile, sun, ref, nodes);
    const Vec2 along = unit(sun.run), across{-along.y, along.x};
    std::array<float, kTileNodes> all{}, some{};
    shade.deepen(tile, ~std::uint32_t{0}, 0.5F, all.data());
    shade.deepen(tile, shade.runs(nodes), 0.5F, some.data());
    ASSERT_EQ(all, some) << "turn " << turn;
    Tile node_by_node = tile;
    node_by_node.even = false;
    std::array<float, kTileNodes> same{};
    shade.deepen(node_by_node, ~std::uint32_t{0}, 0.5F, same.data());
    ASSERT_EQ(all, same) << "turn " << turn;
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (all[k] <= 0.0F) continue;
      ++deepened;
      ASSERT_TRUE(holds(shade.box(), across, nodes, k)) << "turn " << turn;
    }
    passed += 32 - static_cast<std::size_t>(std::popcount(shade.runs(nodes)));
  }
  EXPECT_GT(deepened, 50000U);
  EXPECT_GT(passed, 10000U);
}

TEST(Culls, boxes_asked_eight_at_a_time_are_those_asked_alone) {
  Random random(7);
  const auto box = [&](double wide) {
    const auto range = [&](float& lo, float& hi) {
      lo = static_cast<float>(random.between(-10, 10));
      hi = lo + static_cast<float>(random.between(0, wide));
    };
    ShadowBox b;
    range(b.x0, b.x1);
    range(b.y0, b.y1);
    range(b.across0, b.across1);
    b.z_high = static_cast<float>(random.between(0, 3));
    return b;
  };
  ShadowBoxes boxes;
  std::vector<ShadowBox> each;
  std::vector<std::uint32_t> room, hits, alone;
  for (int count = 0; count < 60; ++count) {
    for (int turn = 0; turn < 20; ++turn) {
      const ShadedBox nodes{box(6.0), static_cast<float>(random.between(0, 3))};
      const auto found = boxes.meeting(nodes, room);
      hits.assign(found.begin(), found.end());
      alone.clear();
      for (std::uint32_t k = 0; k < each.size(); ++k)
        if (may_meet(each[k], nodes)) alone.push_back(k);
      ASSERT_EQ(hits, alone) << count << " boxes";
    }
    each.push_back(box(12.0));
    boxes.add(each.back());
    if (count == 40) boxes.clear(), each.clear();
  }
}

// Even tiles give the same numbers whether or not they are known to be; each run's ends are its
// own.
TEST(Culls, nodes_and_their_runs_are_laid_out_as_one_by_one) {
  Random random(11);
  for (int turn = 0; turn < 200; ++turn) {
    const SunRay sun = random.sun();
    Tile tile = tile_about(random.in_box(20.0), random, turn % 2 == 0);
    const Vec3 ref = tile.ref + random.in_box(5.0);
    ShadowNodes nodes, plain;
    shadow_nodes(tile, sun, ref, nodes);
    tile.even = false;
    shadow_nodes(tile, sun, ref, plain);
    ASSERT_EQ(nodes.qx, plain.qx);
    ASSERT_EQ(nodes.qy, plain.qy);
    ASSERT_EQ(nodes.z, plain.z);
    for (std::size_t r = 0; r < ShadowNodes::kRuns; ++r) {
      const auto ends = [&](const std::array<float, kTileNodes>& of) {
        const float* first = &of[r * ShadowNodes::kRun];
        return std::minmax_element(first, first + ShadowNodes::kRun);
      };
      ASSERT_EQ(nodes.run_x0[r], *ends(nodes.qx).first);
      ASSERT_EQ(nodes.run_x1[r], *ends(nodes.qx).second);
      ASSERT_EQ(nodes.run_y0[r], *ends(nodes.qy).first);
      ASSERT_EQ(nodes.run_y1[r], *ends(nodes.qy).second);
    }
  }
}

// Sides asked eight at a time are those that one by one touch the nodes in part, in their order;
// a shape is passed over where all nodes lie outside of one.
TEST(Culls, sides_are_asked_as_one_by_one) {
  Random random(5);
  std::size_t passed = 0, part = 0;
  for (int turn = 0; turn < 4000; ++turn) {
    const Tile tile = tile_about({}, random, true);
    ShadowNodes nodes;
    shadow_nodes(tile, sun_ray(unit(Vec3{0.7, 0.4, 0.6})), {}, nodes);
    const auto corner = [&] {
      const Vec3 p = random.in_box(3.0);
      return ShadowPoint{static_cast<float>(p.x), static_cast<float>(p.y), 0.0F};
    };
    const std::size_t count = 1 + static_cast<std::size_t>(turn) % 21;
    std::vector<EightSides> eights((count + kWide - 1) / kWide);
    bool none = false;
    std::vector<ShadowSide> asked;
    for (std::size_t k = 0; k < count; ++k) {
      ShadowSide s = shadow_side(corner(), corner(), true);
      if (beside(nodes, s) == Touch::none && turn % 4 != 0) s.negative = 1 - s.negative;
      EightSides& e = eights[k / kWide];
      e.ax[k % kWide] = s.ax, e.ay[k % kWide] = s.ay, e.dx[k % kWide] = s.dx;
      e.dy[k % kWide] = s.dy, e.negative[k % kWide] = s.negative;
      none = none || beside(nodes, s) == Touch::none;
      if (beside(nodes, s) == Touch::part) asked.push_back(s);
    }
    ShadowShape shape;
    ASSERT_EQ(set_sides_asked(nodes, eights.data(), count, shape), !none) << "turn " << turn;
    passed += none ? 1 : 0;
    if (none) continue;
    ASSERT_EQ(shape.sides, asked.size()) << "turn " << turn;
    part += asked.size();
    for (std::size_t k = 0; k < asked.size(); ++k) {
      const ShadowSide &a = shape.side[k], &b = asked[k];
      ASSERT_TRUE(a.ax == b.ax && a.ay == b.ay && a.dx == b.dx && a.dy == b.dy &&
                  a.negative == b.negative);
    }
  }
  EXPECT_GT(passed, 300U);
  EXPECT_GT(part, 3000U);
}

}  // namespace
}  // namespace hummock::shade

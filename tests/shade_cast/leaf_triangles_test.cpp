// Triangles of leaves eight at a time, against each by itself and node by node: the same bits.
#include "engine/shade/cast/leaf_triangles.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

using Corners = std::array<ShadowPoint, 3>;
using Rises = std::array<float, kTileNodes>;

// Twice the area in plan.
double turn_of(const Corners& c) {
  const double ux = double{c[1].x} - c[0].x, uy = double{c[1].y} - c[0].y;
  const double vx = double{c[2].x} - c[0].x, vy = double{c[2].y} - c[0].y;
  return ux * vy - uy * vx;
}

// Does it touch the box of the nodes, by its own box and by its sides?
bool touches(const ShadowNodes& n, const Corners& c) {
  const auto x = std::minmax({c[0].x, c[1].x, c[2].x}), y = std::minmax({c[0].y, c[1].y, c[2].y});
  if (n.x1 < x.first || n.x0 > x.second || n.y1 < y.first || n.y0 > y.second) return false;
  if (turn_of(c) == 0.0) return false;
  for (std::size_t k = 0; k < 3; ++k)
    if (beside(n, shadow_side(c[k], c[(k + 1) % 3], turn_of(c) > 0.0)) == Touch::none) return false;
  return true;
}

void add_rise(const ShadowNodes& n, const Corners& c, Rises& out) {
  const bool left = turn_of(c) > 0.0;
  const double ux = double{c[1].x} - c[0].x, uy = double{c[1].y} - c[0].y;
  const double uz = double{c[1].z} - c[0].z, vz = double{c[2].z} - c[0].z;
  const double vx = double{c[2].x} - c[0].x, vy = double{c[2].y} - c[0].y;
  const auto zx = static_cast<float>((uz * vy - vz * uy) / turn_of(c));
  const auto zy = static_cast<float>((ux * vz - vx * uz) / turn_of(c));
  const auto z = std::minmax({c[0].z, c[1].z, c[2].z});
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    bool inside = true;
    for (std::size_t s = 0; s < 3; ++s) {
      const ShadowSide side = shadow_side(c[s], c[(s + 1) % 3], left);
      const float e = (n.qx[k] - side.ax) * side.dy - (n.qy[k] - side.ay) * side.dx;
      inside = inside && (e < 0.0F) == (side.negative != 0);
    }
    float top = c[0].z + zx * (n.qx[k] - c[0].x) + zy * (n.qy[k] - c[0].y);
    top = std::min(std::max(top, z.first), z.second);
    const float above = top - n.z[k];
    if (inside && above > 0.0F) out[k] += left ? above : -above;
  }
}

// A tile a tenth of a metre from node to node, the first at `at`.
Tile bumpy_tile(Vec3 at, std::mt19937& engine) {
  std::uniform_real_distribution<> bump(-0.2, 0.2);
  Tile tile;
  tile.ref = at;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    tile.x[k] = 0.1F * static_cast<float>(k % kTile);
    const std::size_t row = k / kTile;
    tile.y[k] = 0.1F * static_cast<float>(row);
    tile.z[k] = static_cast<float>(bump(engine));
    tile.box.add(at + Vec3{tile.x[k], tile.y[k], tile.z[k]});
  }
  set_even(tile);
  return tile;
}

// Triangles of all sizes about two tiles, some without area, some beyond both.
std::vector<Corners> triangles_about(std::mt19937& engine, std::size_t count) {
  std::uniform_real_distribution<float> share(0.0F, 1.0F);
  const auto in = [&](float half) { return half * (2.0F * share(engine) - 1.0F); };
  std::vector<Corners> list;
  for (std::size_t k = 0; k < count; ++k) {
    const float size = 0.02F * std::pow(100.0F, share(engine));
    const ShadowPoint at{in(4.0F), in(4.0F), in(1.5F)};
    Corners c;
    for (ShadowPoint& p : c) p = {at.x + in(size), at.y + in(size), at.z + in(0.5F)};
    if (k % 11 == 0) c[2] = c[k % 2];
    if (k % 13 == 12) c[1] = list.back()[0], c[2] = list.back()[1];
    list.push_back(c);
  }
  return list;
}

TEST(LeafTriangles, eight_at_a_time_are_each_by_itself) {
  std::mt19937 engine(411);
  std::size_t touched = 0, risen = 0, passed_over = 0;
  for (int trial = 0; trial < 60; ++trial) {
    std::uniform_real_distribution<> angle(0.0, 1.0);
    const double high = (3.0 + 80.0 * angle(engine)) * geom::kDegree;
    const double round = 2.0 * geom::kPi * angle(engine);
    const SunRay sun = sun_ray(
        {std::cos(high) * std::sin(round), std::cos(high) * std::cos(round), std::sin(high)});
    const std::array<Tile, 2> tiles{bumpy_tile({-1.2, -0.8, 0.1}, engine),
                                    bumpy_tile({0.4, -0.8, -0.1}, engine)};
    geom::Box3 both = tiles[0].box;
    both.add(tiles[1].box);
    const Vec2 along = unit(sun.run), across{-along.y, along.x};
    const ShadedBox asked = shaded_box(both, both.lo, sun, across);
    const std::vector<Corners> list = triangles_about(engine, 203);
    LeafTriangles leaves;
    for (const Corners& c : list) leaves.add(c[0], c[1], c[2], asked);
    leaves.close(asked);
    passed_over += (list.size() + 7) / 8 - leaves.eights();
    for (const Tile& tile : tiles) {
      ShadowNodes nodes;
      shadow_nodes(tile, sun, both.lo, nodes);
      alignas(32) Rises by_eight{};
      Rises by_one{};
      bool any = false, any_by_one = false;
      LeafRuns runs;
      runs.lit = trial % 3 == 0 ? 0x5A0FF0C3U : ~0U;
      set_lowest(nodes, runs);
      std::vector<std::uint32_t> room;
      for (const std::uint32_t k : leaves.meeting(shaded_box(tile.box, both.lo, sun, across), room))
        any = leaves.scan(k, nodes, runs, by_eight.data()) || any;
      for (const Corners& c : list) {
        if (!touches(nodes, c)) continue;
        any_by_one = true;
        ++touched;
        add_rise(nodes, c, by_one);
      }
      EXPECT_EQ(any, any_by_one);
      for (std::size_t k = 0; k < kTileNodes; ++k) {
        if ((runs.lit >> k / ShadowNodes::kRun & 1U) == 0) continue;
        ASSERT_EQ(by_eight[k], by_one[k]) << trial << " " << k;
        risen += by_one[k] > 0.0F ? 1 : 0;
      }
    }
  }
  EXPECT_GT(touched, 500U);
  EXPECT_GT(risen, 2000U);
  EXPECT_GT(passed_over, 0U);
}

}  // namespace
}  // namespace hummock::shade

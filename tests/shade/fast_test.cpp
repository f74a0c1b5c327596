// The fast path against the rays.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

double pick(std::mt19937& random, double lo, double hi) {
  return std::uniform_real_distribution<double>(lo, hi)(random);
}

// A yard with something of everything, different for each seed.
Model random_yard(unsigned seed) {
  std::mt19937 random(seed);
  const double rough = pick(random, 0.0, 1.2), ax = pick(random, 0.3, 2), ay = pick(random, 0.3, 2);
  Model m = yard(
      0, 0, 12, 9, 0.1,
      [&](double x, double y) {
        return 100.0 + rough * std::sin(ax * x + 1) * std::cos(ay * y) +
               0.2 * rough * std::sin(5 * x) * std::sin(4 * y);
      },
      2.0);
  // Off the nodes: one in a panel's plane is on its shadow's edge whatever the sun.
  const geom::Polygon o = rectangle(-0.013, -0.013, 12.013, 9.013);
  for (std::size_t k = 0; k < 4; ++k) {
    const Vec2 a = o[k], b = o[(k + 1) % 4];
    for (int p = 0; p < 5; ++p) {
      Part& panel = add_wall(m, "panel", lerp(a, b, p / 5.0), lerp(a, b, (p + 1) / 5.0), 98, 102.4);
      if (k != 2) as_mesh(panel, 0.025, 0.003);
      if (k == 3) panel.openness = 0.85, panel.aperture = panel.wire = 0;
    }
  }
  geom::Mesh canopy;
  append_quad(canopy, {0, 0, 103.2}, {7, 0, 103.2}, {7, 5, 103.0}, {0, 5, 103.0});
  as_mesh(add_part(m, "roof", PartKind::roof, canopy), 0.05, 0.003);
  for (int k = 0; k < 6; ++k) {
    const Vec3 at{pick(random, 1, 11), pick(random, 1, 8), 100.0 + pick(random, -0.2, 0.6)};
    add_solid(
        m, "boulder",
        ellipsoid(at, {pick(random, 0.2, 1), pick(random, 0.2, 1), pick(random, 0.2, 1)}, 20));
  }
  add_part(m, "crown", PartKind::crown, ellipsoid({6, 4, 103}, {2, 2, 1.5}, 24)).leaf_density = 0.9;
  add_part(m, "grass", PartKind::planting, box_mesh({8, 1, 97}, {11, 4, 101})).leaf_density = 2;
  add_part(m, "barn", PartKind::surrounding, box_mesh({-9, -9, 97}, {-3, 20, 106}));
  return m;
}

// Is the rays' own answer unsteady within a millimetre (and the tenth of float32) of the node?
bool at_an_edge(const Model& m, const RayBeam& rays, Vec3 node, const SunRay& sun, float fast) {
  double lo = 2.0, hi = -1.0;
  for (int k = 0; k < 16; ++k) {
    const double turn = 2 * geom::kPi * k / 16;
    const Vec2 at = xy(node) + Vec2{0.001 * std::cos(turn), 0.001 * std::sin(turn)};
    const double b = rays.at(at_height(at, height_at(m.ground, at) + kLift), sun, {2026, 6, 21});
    lo = std::min(lo, b);
    hi = std::max(hi, b);
  }
  return lo - 1e-3 <= fast && fast <= hi + 1e-3;
}

TEST(FastBeam, is_the_rays_answer_but_within_a_millimetre_of_a_shadow_s_edge) {
  std::size_t compared = 0, unlike = 0;
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const Model m = random_yard(seed);
    const FastBeam fast(m);
    const std::vector<Tile> tiles = ground_tiles(m, m.ground.grid);
    std::mt19937 random(seed * 977);
    for (int k = 0; k < 8; ++k) {
      const SunRay sun = sun_ray(sun_at(pick(random, 0, 360), pick(random, 1, 62)).towards);
      for (const Tile& tile : tiles) {
        TileBeam quick;
        std::array<float, kTileNodes> slow{};
        fast.tile(tile, sun, {2026, 6, 21}, quick);
        fast.rays().tile(tile, sun, {2026, 6, 21}, slow);
        for (std::size_t n = 0; n < kTileNodes; ++n) {
          if (tile.inside[n] == 0) continue;
          ++compared;
          // Beer–Lambert over float32 paths: a part in a thousand.
          if (std::abs(quick.at(n) - slow[n]) <= 1e-3F) continue;
          ++unlike;
          const Vec3 at = tile.ref + Vec3{tile.x[n], tile.y[n], tile.z[n]};
          ASSERT_TRUE(at_an_edge(m, fast.rays(), at, sun, quick.at(n)))
              << "seed " << seed << " sun " << k << " towards " << sun.towards.x << " "
              << sun.towards.y << " " << sun.towards.z << " at " << at.x << " " << at.y << ": fast "
              << quick.at(n) << ", rays " << slow[n];
        }
      }
    }
  }
  EXPECT_GT(compared, 450000U);  // nodes where an animal can lie: none on the outline
  EXPECT_LT(static_cast<double>(unlike), 1e-3 * static_cast<double>(compared));
  RecordProperty("unlike_per_million", std::to_string(1e6 * unlike / compared));
}

// Turned by a quarter with everything in it, the yard has the same shade turned by a quarter.
TEST(FastBeam, turns_with_the_yard) {
  Model a = yard(-6, -6, 6, 6, 0.25);
  Model b = a;
  geom::Mesh box = box_mesh({1.03, 2.04, 0}, {2.31, 2.92, 1.1});
  add_solid(a, "box", box);
  place(box, geom::kPi / 2, {});
  add_solid(b, "box", box);
  const geom::Raster ra = beam(a, sun_at(123.4, 31), {});
  const geom::Raster rb = beam(b, sun_at(33.4, 31), {});
  const int n = ra.grid.nx;
  int unlike = 0;
  for (int j = 0; j < n; ++j) {
    for (int i = 0; i < n; ++i) {
      const float p = ra.at(i, j), q = rb.at(n - 1 - j, i);
      unlike += p == q || (std::isnan(p) && std::isnan(q)) ? 0 : 1;
    }
  }
  EXPECT_EQ(unlike, 0);
}

// A stone of more triangles than are scanned goes to rays: same shadow as its coarser self's.
TEST(FastBeam, takes_a_stone_of_many_triangles) {
  Model fine = yard(-4, -4, 4, 4, 0.1), coarse = fine;
  add_solid(fine, "stone", ellipsoid({0, 0, 0.5}, {1, 1, 1}, 300));
  add_solid(coarse, "stone", ellipsoid({0, 0, 0.5}, {1, 1, 1}, 100));
  ASSERT_GT(fine.parts[0].mesh.triangles.size(), 20000U);
  const geom::Raster a = beam(fine, sun_at(222, 24), {}), b = beam(coarse, sun_at(222, 24), {});
  int unlike = 0, dark = 0;
  for (std::size_t k = 0; k < a.values.size(); ++k) {
    if (std::isnan(a.values[k]) || std::isnan(b.values[k])) continue;  // under the stone
    unlike += a.values[k] != b.values[k] ? 1 : 0;
    dark += a.values[k] == 0.0F ? 1 : 0;
  }
  EXPECT_LE(unlike, 6);
  EXPECT_GT(dark, 400);
}

}  // namespace
}  // namespace hummock::shade

#include "geometry/terrain/viewshed.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/rays/ray_scene.h"
#include "geometry/terrain/rising_run.h"
#include "tests/support/gdal_viewshed.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::Heightfield;
using geom::Raster;
using geom::Vec2;
using geom::Vec3;

// Largest difference between the sweep and crossing every edge one by one.
double worst_against_rays(const Heightfield& ground, Vec3 eye) {
  const Raster swept = geom::least_visible_height(ground, eye);
  double worst = 0.0;
  for (int j = 0; j < ground.grid.ny; ++j)
    for (int i = 0; i < ground.grid.nx; ++i) {
      const double exact = geom::least_visible_height_at(ground, eye, ground.grid.node(i, j));
      const double off = std::abs(exact - swept.at(i, j)) / (1.0 + exact);
      if (!(off <= worst)) worst = off;
    }
  return worst;
}

Heightfield random_ground(std::mt19937& rng, int nx, int ny, double rough) {
  Heightfield h;
  h.grid = {-3.0, 11.0, 0.37, nx, ny};
  std::uniform_real_distribution<double> z(0.0, rough);
  h.z.resize(h.grid.size());
  for (double& v : h.z) v = z(rng);
  return h;
}

// Rolling ground with long visible and long hidden stretches, as a yard's.
Heightfield smooth_ground(std::mt19937& rng) {
  std::uniform_real_distribution<double> of(0.3, 1.5);
  const double a = of(rng), b = of(rng), c = of(rng), d = of(rng);
  return tests::surface({0, 0}, {14, 11}, 0.1, [=](double x, double y) {
    return 0.5 * a * std::sin(b * x + c) * std::cos(c * y) + 0.1 * std::sin(3.0 * d * x + 2.0 * y);
  });
}

TEST(Viewshed, SweepAgreesWithEveryRayOnRandomGroundsFromRandomEyes) {
  std::mt19937 rng(20240607);
  for (int round = 0; round < 4000; ++round) {
    SCOPED_TRACE("seed 20240607, round " + std::to_string(round));
    const int nx = 2 + static_cast<int>(rng() % 18), ny = 2 + static_cast<int>(rng() % 18);
    const Heightfield h = random_ground(rng, nx, ny, round % 3 == 0 ? 0.05 : 2.0);
    std::uniform_real_distribution<double> part(0.0, 1.0);
    Vec2 at{h.grid.x0 + part(rng) * (h.grid.x_max() - h.grid.x0),
            h.grid.y0 + part(rng) * (h.grid.y_max() - h.grid.y0)};
    // Every other eye stands on a node, on a grid line or on a cell's diagonal.
    if (round % 4 == 1) at = h.grid.node(nx / 2, ny / 3);
    if (round % 4 == 2) at.x = h.grid.node(nx / 2, 0).x;
    if (round % 4 == 3) {
      const double t = part(rng);
      at = geom::lerp(h.grid.node(1, 0), h.grid.node(0, 1), t);
    }
    if (round % 20 == 5)
      at.x = std::max(h.grid.x0, at.x - 1e-14 * (round % 7));  // a hair off the node
    const Vec3 eye = at_height(at, geom::height_at(h, at) + 0.02 + part(rng));
    ASSERT_LT(worst_against_rays(h, eye), 1e-6);
  }
}

TEST(Viewshed, SweepAgreesWithEveryRayFromTheGridsCornersAndRim) {
  std::mt19937 rng(7);
  const Heightfield h = random_ground(rng, 23, 17, 1.0);
  for (const int i : {0, 11, 22})
    for (const int j : {0, 8, 16})
      EXPECT_LT(worst_against_rays(h, at_height(h.grid.node(i, j), 1.3)), 1e-6) << i << ' ' << j;
}

TEST(Viewshed, SweepAgreesWithEveryRayOnTheVolcanoAndOnRollingGround) {
  // Smooth ground takes the short cuts past hidden and rising cells that noise never does.
  const Heightfield rolling = tests::surface({0, 0}, {9, 7}, 0.1, [](double x, double y) {
    return std::sin(1.3 * x) * std::cos(1.1 * y + 0.4) + 0.2 * std::sin(5.0 * x + 3.0 * y);
  });
  std::mt19937 rng(31);
  std::uniform_real_distribution<double> part(0.02, 0.98);
  for (const Heightfield& h : {tests::volcano(), rolling})
    for (int round = 0; round < 12; ++round) {
      const Vec2 at{h.grid.x0 + part(rng) * (h.grid.x_max() - h.grid.x0),
                    h.grid.y0 + part(rng) * (h.grid.y_max() - h.grid.y0)};
      const Vec3 eye = at_height(at, geom::height_at(h, at) + 3.0 * part(rng));
      EXPECT_LT(worst_against_rays(h, eye), 1e-6) << "seed 31, round " << round;
    }
}

TEST(Viewshed, BehindAWallTheShadowIsSimilarTriangles) {
  // A ridge one node wide and 2 m high across the view at 10 m; the eye is 3 m up. Behind it, at
  // distance d, a target must stand h = 3 − (3 − 2)·d/10 high to be seen; nothing from d = 30 on.
  Heightfield h = geom::level_ground({{0, -5}, {40, 5}}, 0.5, 0.0);
  for (int j = 0; j < h.grid.ny; ++j) h.at(20, j) = 2.0;
  const Raster need = geom::least_visible_height(h, {0.0, 0.0, 3.0});
  for (int i = 22; i < h.grid.nx; ++i) {
    const double d = h.grid.node(i, 0).x;
    EXPECT_NEAR(need.at(i, 10), std::max(0.0, 3.0 - d / 10.0), 1e-6) << d;
  }
  EXPECT_EQ(need.at(19, 10), 0.0F);
}

TEST(Viewshed, EverythingOnAPlaneAndInABowlIsSeen) {
  Heightfield h = geom::level_ground({{0, 0}, {5, 5}}, 0.1, 0.0);
  for (int j = 0; j < h.grid.ny; ++j)
    for (int i = 0; i < h.grid.nx; ++i) {
      const Vec2 p = h.grid.node(i, j);
      h.at(i, j) = 0.3 * p.x - 0.2 * p.y;
    }
  for (const float v : geom::least_visible_height(h, {2.53, 2.5, 0.3}).values) EXPECT_EQ(v, 0.0F);
  for (int j = 0; j < h.grid.ny; ++j)
    for (int i = 0; i < h.grid.nx; ++i) {
      const Vec2 p = h.grid.node(i, j) - Vec2{2.5, 2.5};
      h.at(i, j) = 0.1 * dot(p, p);
    }
  for (const float v : geom::least_visible_height(h, {2.5, 2.5, 0.5}).values) EXPECT_EQ(v, 0.0F);
}

TEST(Viewshed, AMirroredGroundHasTheMirroredAnswer) {
  // The diagonals mirror too, so the surface differs by a bilinear twist; on a ground whose cells
  // are flat (a height that is the sum of one function of x and one of y has no twist) it does not.
  Heightfield h = geom::level_ground({{0, 0}, {6, 6}}, 0.25, 0.0);
  const auto f = [](double x) { return 0.4 * std::sin(2.1 * x) + 0.1 * x; };
  for (int j = 0; j < h.grid.ny; ++j)
    for (int i = 0; i < h.grid.nx; ++i) h.at(i, j) = f(0.25 * i) + f(0.9 * 0.25 * j);
  Heightfield m = h;
  for (int j = 0; j < h.grid.ny; ++j)
    for (int i = 0; i < h.grid.nx; ++i) m.at(i, j) = h.at(h.grid.nx - 1 - i, j);
  const Raster a = geom::least_visible_height(h, {2.1, 3.3, 2.0});
  const Raster b = geom::least_visible_height(m, {6.0 - 2.1, 3.3, 2.0});
  for (int j = 0; j < h.grid.ny; ++j)
    for (int i = 0; i < h.grid.nx; ++i) EXPECT_NEAR(a.at(i, j), b.at(h.grid.nx - 1 - i, j), 1e-6);
}

// Wanted nodes before, behind, beside and about the eye: the same to the last bit as of all.
TEST(Viewshed, OfARangeOfNodesItIsThatOfAll) {
  std::mt19937 random(11);
  const Heightfield ground = random_ground(random, 40, 30, 2.0);
  for (int k = 0; k < 200; ++k) {
    const auto up_to = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    Vec2 p = ground.grid.node(up_to(39), up_to(29));
    if (k % 4 != 0) p = p + Vec2{0.01 * up_to(100), 0.01 * up_to(100)} * ground.grid.cell;
    const Vec3 eye = at_height(p, geom::height_at(ground, p) + 0.5);
    const int i0 = up_to(40), j0 = up_to(30);
    const geom::NodeRange range{i0, i0 + up_to(40 - i0), j0, j0 + up_to(30 - j0)};
    const Raster all = geom::least_visible_height(ground, eye);
    const Raster part = geom::least_visible_height(ground, eye, range);
    for (int j = range.j0; j <= range.j1; ++j)
      for (int i = range.i0; i <= range.i1; ++i) ASSERT_EQ(part.at(i, j), all.at(i, j)) << k;
  }
}

// Asked for one height of target it is the same answer, for every node, as the heights give.
TEST(Viewshed, HiddenNodesAreThoseWhoseLeastVisibleHeightIsOver) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> part(0.0, 1.0);
  for (int k = 0; k < 160; ++k) {
    SCOPED_TRACE("seed 5, round " + std::to_string(k));
    const Heightfield ground =
        k % 2 == 0 ? smooth_ground(random) : random_ground(random, 60, 45, 1.0);
    const geom::Grid& g = ground.grid;
    Vec2 p = g.node(static_cast<int>(random() % static_cast<unsigned>(g.nx)),
                    static_cast<int>(random() % static_cast<unsigned>(g.ny)));
    if (k % 3 != 0)
      p = {g.x0 + part(random) * (g.x_max() - g.x0), g.y0 + part(random) * (g.y_max() - g.y0)};
    const Vec3 eye = at_height(p, geom::height_at(ground, p) + 0.05 + 2.0 * part(random));
    const Raster need = geom::least_visible_height(ground, eye);
    for (const double tall : {0.0, 0.02, 0.3, part(random)}) {
      const auto hidden = geom::hidden_nodes(ground, eye, tall, {0, g.nx - 1, 0, g.ny - 1});
      for (std::size_t n = 0; n < hidden.size(); ++n)
        ASSERT_EQ(hidden[n] != 0, need.values[n] > tall) << n << ' ' << need.values[n];
    }
  }
}

TEST(Viewshed, RowsTakenFourAtATimeAreThoseTakenOneByOne) {
  std::mt19937 random(8);
  std::uniform_real_distribution<double> part(0.0, 1.0);
  int longest = 0;
  for (int round = 0; round < 3000; ++round) {
    SCOPED_TRACE("seed 8, round " + std::to_string(round));
    constexpr int kRows = 70;
    const double p = 90.0 + 200.0 * part(random), q = round % 2 == 0 ? 0.0 : part(random);
    std::vector<double> u(kRows + 2), w(kRows + 2), after(kRows + 2), nearer(kRows + 2);
    const double rough = 1e-3 * part(random), bend = 2e-4 * (part(random) - 0.3);
    for (int j = 0; j < kRows + 2; ++j) {
      const auto n = static_cast<std::size_t>(j);
      u[n] = (q + j) * (1.0 / (p - 1.0));
      nearer[n] = -0.02 + bend * j * j * 0.01 + rough * part(random) * (round % 3 == 0 ? 1.0 : 0.0);
      w[n] = nearer[n];
      after[n] = nearer[n] + 2e-4 + (part(random) < 0.02 ? -5e-4 : 0.0);
    }
    if (round % 5 == 0)
      u[static_cast<std::size_t>(random() % kRows)] += 1e-9;  // a corner elsewhere
    const geom::RisingStrip strip{
        p,        p - 1.0,      1.0 / p,       1.0 / (p - 1.0), q, 0, u.data(),
        w.data(), after.data(), nearer.data(), round % 2 == 0};
    std::vector<double> fast_u(kRows + 1), fast_w(kRows + 1), slow_u(kRows + 1), slow_w(kRows + 1);
    const int most = static_cast<int>(random() % (kRows + 1));
    const int fast = geom::rising_run(strip, most, fast_u.data(), fast_w.data());
    ASSERT_EQ(fast, geom::rising_run_one_by_one(strip, most, slow_u.data(), slow_w.data()));
    for (std::size_t n = 0; n < static_cast<std::size_t>(fast); ++n) {
      ASSERT_EQ(fast_u[n], slow_u[n]);
      ASSERT_EQ(fast_w[n], slow_w[n]);
    }
    longest = std::max(longest, fast);
  }
  EXPECT_GT(longest, 60);
}

TEST(Viewshed, AnEyeOffTheGridIsRefused) {
  const Heightfield h = geom::level_ground({{0, 0}, {5, 5}}, 1.0, 0.0);
  EXPECT_THROW(geom::least_visible_height(h, {-0.1, 2, 2}), std::invalid_argument);
}

// Rays by Embree on the same triangles: other hands, other arithmetic (float32). Nodes whose answer
// is within a centimetre of the target's height are left out: on the volcano float32 is that good.
TEST(Viewshed, EmbreesRaysSeeTheSameNodesOfTheVolcano) {
  const Heightfield h = tests::volcano();
  geom::RayScene scene;
  scene.add_ground(h, 1);
  scene.commit();
  for (const Vec2 at : {h.grid.node(43, 30), Vec2{271.3, 388.8}}) {
    const Vec3 eye = at_height(at, geom::height_at(h, at) + 2.0);
    const Raster need = geom::least_visible_height(h, eye);
    int asked = 0, differ = 0;
    for (const double tall : {2.0, 10.0, 30.0})
      for (int j = 0; j < h.grid.ny; ++j)
        for (int i = 0; i < h.grid.nx; ++i) {
          if (std::abs(need.at(i, j) - tall) < 0.01) continue;
          ++asked;
          const Vec3 target = at_height(h.grid.node(i, j), h.at(i, j) + tall);
          differ += scene.segment_free(eye, target, 1e-3) != (need.at(i, j) <= tall);
        }
    EXPECT_EQ(differ, 0);
    EXPECT_GT(asked, 15000);
  }
}

struct Against {
  int gdal = 0, ours = 0, differ = 0;
};
Against compare(const Raster& need, const std::vector<unsigned char>& gdal, double target) {
  Against a;
  for (std::size_t n = 0; n < gdal.size(); ++n) {
    const bool ours = need.values[n] <= target;
    a.gdal += gdal[n] != 0;
    a.ours += ours;
    a.differ += (gdal[n] != 0) != ours;
  }
  return a;
}

// gdal_viewshed 3.6.2 -ox 435 -oy 305 -oz 2 -tz 0 -cc 0 on the volcano sees 129 of
// 5307 cells; the exact surface shows 385. GDAL of then judges the cells on the eight compass
// lines wrongly and carries the error outwards (github.com/OSGeo/gdal issue 10205, of 2024): here
// the whole north-east is lost in its default mode "edge". Its other modes bracket the truth.
TEST(Viewshed, WhereGdalDiffersOnTheVolcanoIsCountedAndTheTruthLiesBetweenItsModes) {
  const Heightfield h = tests::volcano();
  ASSERT_EQ(h.at(43, 30), 161.0);
  const tests::GdalGround gdal(h);
  const Raster need = geom::least_visible_height(h, at_height(h.grid.node(43, 30), 163.0));
  const Against edge = compare(need, gdal.seen(43, 30, 2.0, 0.0), 0.0);
  EXPECT_EQ(edge.gdal, 129);
  EXPECT_EQ(edge.ours, 385);
  for (const double tall : {0.0, 2.0, 10.0, 30.0}) {
    const Against most = compare(need, gdal.seen(43, 30, 2.0, tall, tests::GdalMode::min), tall);
    const Against least = compare(need, gdal.seen(43, 30, 2.0, tall, tests::GdalMode::max), tall);
    EXPECT_LE(least.gdal, most.ours) << tall;
    EXPECT_GE(most.gdal, most.ours) << tall;
    EXPECT_LT(most.differ, 0.015 * 5307) << tall;
  }
}

}  // namespace
}  // namespace hummock

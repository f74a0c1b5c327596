// The ground united with what stands on it by patches, held against the boolean of the whole block:
// the same volume, closed, and fit as a solid by CGAL's own checks.
#include "geometry/mesh/ground_union.h"

#include <gtest/gtest.h>

#include <random>

#include "geometry/mesh/column_solid.h"

namespace hummock::geom {
namespace {

constexpr double kFloor = -2.0;

Heightfield rough_ground(std::mt19937& random, int nx, int ny) {
  Heightfield ground;
  ground.grid = {-1.0, 2.0, 0.25, nx, ny};
  std::uniform_real_distribution<double> z(-0.15, 0.15);
  for (std::size_t k = 0; k < ground.grid.size(); ++k) ground.z.push_back(z(random));
  return ground;
}

// A turned block, its foot in the ground or above it.
Mesh block(std::mt19937& random, const Grid& g, double rim) {
  std::uniform_real_distribution<double> x(g.x0 + rim, g.x_max() - rim);
  std::uniform_real_distribution<double> y(g.y0 + rim, g.y_max() - rim);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  const double length = 0.2 + 0.9 * share(random);
  const double width = 0.1 + 0.4 * share(random);
  const double foot = -0.5 + 0.8 * share(random);
  Mesh mesh = prism_on({{-length, -width}, {length, -width}, {length, width}, {-length, width}},
                       foot, foot + 0.3 + share(random));
  place(mesh, 6.28 * share(random), {x(random), y(random), 0.0});
  return mesh;
}

void expect_the_same(const Solid& fast, const Solid& whole) {
  ASSERT_EQ(fast.ok, whole.ok) << fast.reason << '/' << whole.reason;
  if (!whole.ok) return;
  EXPECT_TRUE(is_closed(fast.mesh));
  EXPECT_EQ(unfit_as_solid(fast.mesh, Operands::searched), "");
  EXPECT_NEAR(fast.volume, whole.volume, 1e-11 * whole.volume);
  EXPECT_NEAR(surface_area(fast.mesh), surface_area(whole.mesh), 1e-9 * surface_area(whole.mesh));
  const Box3 a = bounds(fast.mesh);
  const Box3 b = bounds(whole.mesh);
  EXPECT_LT(length(a.lo - b.lo) + length(a.hi - b.hi), 1e-12);
}

TEST(GroundUnion, ByPatchesIsTheWholeBlocks) {
  std::mt19937 random(3);  // NOLINT(cert-msc51-cpp): the same grounds every time
  for (int round = 0; round < 12; ++round) {
    const Heightfield ground = rough_ground(random, 33, 25);
    std::vector<Mesh> solids;
    for (int k = 0; k < 1 + round; ++k) solids.push_back(block(random, ground.grid, 1.7));
    const Solid fast = unite_with_ground(ground, kFloor, solids);
    expect_the_same(fast, unite_with_whole_ground(ground, kFloor, solids));
  }
}

TEST(GroundUnion, OfARingOfWallsKeepsTheGroundWithin) {
  std::mt19937 random(4);  // NOLINT(cert-msc51-cpp)
  const Heightfield ground = rough_ground(random, 41, 41);
  std::vector<Mesh> solids;
  const Vec2 middle{4.0, 7.0};
  for (int k = 0; k < 8; ++k) {
    Mesh wall = prism_on({{-1.31, -0.04}, {1.31, -0.04}, {1.31, 0.04}, {-1.31, 0.04}}, -0.6, 1.5);
    const double turn = k * kPi / 4.0;
    const Vec2 at = middle + Vec2{std::cos(turn + kPi / 2), std::sin(turn + kPi / 2)} * 3.0;
    place(wall, turn, {at.x, at.y, 0.001 * k});
    solids.push_back(std::move(wall));
  }
  const Solid fast = unite_with_ground(ground, kFloor, solids);
  expect_the_same(fast, unite_with_whole_ground(ground, kFloor, solids));
  EXPECT_TRUE(fast.ok);
}

// What reaches the ground's rim, what floats, and nothing at all.
TEST(GroundUnion, TakesTheOddCases) {
  std::mt19937 random(5);  // NOLINT(cert-msc51-cpp)
  const Heightfield ground = rough_ground(random, 21, 17);
  Mesh over_rim = prism_on({{-1.5, 3.0}, {0.5, 3.0}, {0.5, 3.4}, {-1.5, 3.4}}, -0.5, 1.0);
  Mesh floating = prism_on({{1, 3}, {2, 3}, {2, 4}, {1, 4}}, 1.0, 1.5);
  for (const std::vector<Mesh>& solids :
       {std::vector<Mesh>{over_rim}, std::vector<Mesh>{floating}, std::vector<Mesh>{}}) {
    expect_the_same(unite_with_ground(ground, kFloor, solids),
                    unite_with_whole_ground(ground, kFloor, solids));
  }
}

}  // namespace
}  // namespace hummock::geom

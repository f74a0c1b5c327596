// Meshes told to be solids at sight, held against CGAL's own search for faces that cross.
#include "geometry/mesh/star_solid.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "geometry/mesh/boolean_cgal.h"
#include "geometry/mesh/column_solid.h"

namespace hummock::geom {
namespace {

// A ball of rings whose vertices are pulled in and out, `wild` times the radius; may cross itself.
Mesh lump(std::mt19937& random, double wild) {
  std::uniform_real_distribution<double> pull(1.0 - wild, 1.0 + wild), aside(-wild, wild);
  constexpr unsigned kAround = 8, kRings = 5;
  Mesh m;
  const auto add = [&](Vec3 p) {
    const double r = pull(random);
    m.vertices.push_back(p * r + Vec3{aside(random), aside(random), aside(random)} * 0.5);
  };
  add({0, 0, -1});
  for (unsigned r = 1; r < kRings; ++r)
    for (unsigned k = 0; k < kAround; ++k) {
      const double polar = kPi * r / kRings, turn = 2 * kPi * k / kAround;
      add({std::sin(polar) * std::cos(turn), std::sin(polar) * std::sin(turn), -std::cos(polar)});
    }
  add({0, 0, 1});
  const auto at = [&](unsigned r, unsigned k) { return 1 + (r - 1) * kAround + k % kAround; };
  const auto top = static_cast<std::uint32_t>(m.vertices.size() - 1);
  for (unsigned k = 0; k < kAround; ++k) {
    m.triangles.push_back({0, at(1, k + 1), at(1, k)});
    for (unsigned r = 1; r + 1 < kRings; ++r) {
      m.triangles.push_back({at(r, k), at(r, k + 1), at(r + 1, k)});
      m.triangles.push_back({at(r, k + 1), at(r + 1, k + 1), at(r + 1, k)});
    }
    m.triangles.push_back({at(kRings - 1, k), at(kRings - 1, k + 1), top});
  }
  return m;
}

TEST(StarSolid, IsNeverOneThatCrossesItself) {
  std::mt19937 random(12);  // NOLINT(cert-msc51-cpp): the same lumps every time
  int told = 0, crossing = 0;
  for (int k = 0; k < 300; ++k) {
    const Mesh mesh = lump(random, 0.002 * k);
    const bool star = is_star_solid(mesh);
    const std::string unfit = unfit_as_solid(mesh, Operands::searched);
    EXPECT_TRUE(!star || unfit.empty()) << k << ": " << unfit;
    told += star ? 1 : 0;
    crossing += unfit.empty() ? 0 : 1;
  }
  EXPECT_GT(told, 40);
  EXPECT_GT(crossing, 20);
}

TEST(StarSolid, TellsPrismsAndNoSheetsTwoShellsOrWallsTwiceRound) {
  EXPECT_TRUE(is_star_solid(prism_on({{0, 0}, {2, 0}, {2, 1}, {0, 1}}, 5.0, 5.1)));
  EXPECT_TRUE(is_star_solid(prism_on({{0, 0}, {9, 0}, {9, 0.05}, {0, 0.05}}, 0.0, 2.0)));
  EXPECT_FALSE(is_star_solid(flat_sheet({{0, 0}, {2, 0}, {2, 1}}, 0.0)));
  Mesh two = prism_on({{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 0.0, 1.0);
  append(two, two);  // on itself
  EXPECT_FALSE(is_star_solid(two));
  Mesh inside_out = prism_on({{0, 0}, {1, 0}, {1, 1}, {0, 1}}, 0.0, 1.0);
  flip(inside_out);
  EXPECT_FALSE(is_star_solid(inside_out));
  // A spindle wound twice round its axis: closed, all faces outwards, a volume counted twice.
  Mesh twice;
  for (int k = 0; k < 8; ++k)
    twice.vertices.push_back({std::cos(k * kPi / 2), std::sin(k * kPi / 2), 0.0});
  twice.vertices.push_back({0, 0, -1});
  twice.vertices.push_back({0, 0, 1});
  for (std::uint32_t k = 0; k < 8; ++k) {
    twice.triangles.push_back({(k + 1) % 8, k, 8});
    twice.triangles.push_back({k, (k + 1) % 8, 9});
  }
  EXPECT_TRUE(is_closed(twice));
  EXPECT_FALSE(is_star_solid(twice));
}

// One alone comes out of the union as it went in, so it need not go in.
TEST(StarSolid, AloneIsItsOwnUnion) {
  std::mt19937 random(13);  // NOLINT(cert-msc51-cpp)
  for (int k = 0; k < 10; ++k) {
    const Mesh mesh = lump(random, 0.05);
    ASSERT_TRUE(is_star_solid(mesh));
    const Solid united = unite({mesh}, Operands::searched);
    ASSERT_TRUE(united.ok);
    EXPECT_EQ(united.mesh.triangles, mesh.triangles);
    EXPECT_EQ(united.mesh.vertices, mesh.vertices);
  }
}

}  // namespace
}  // namespace hummock::geom

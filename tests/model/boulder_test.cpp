#include "engine/model/shapes/boulder.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>

#include "engine/model/shapes/steady_turn.h"

namespace hummock {
namespace {

// FNV-1a over the bits of every coordinate and every index.
std::uint64_t fingerprint(const geom::Mesh& mesh) {
  std::uint64_t h = 1469598103934665603ULL;
  const auto take = [&](std::uint64_t word) {
    for (int k = 0; k < 8; ++k) {
      h ^= (word >> (8 * k)) & 0xFFU;
      h *= 1099511628211ULL;
    }
  };
  for (const geom::Vec3& v : mesh.vertices) {
    for (double c : {v.x, v.y, v.z}) take(std::bit_cast<std::uint64_t>(c));
  }
  for (const geom::Triangle& t : mesh.triangles) {
    for (std::uint32_t i : t) take(i);
  }
  return h;
}

TEST(Boulder, IsTheSameByteForByteEachTime) {
  EXPECT_EQ(fingerprint(boulder_stone(4, {1.4, 1.1, 0.9})),
            fingerprint(boulder_stone(4, {1.4, 1.1, 0.9})));
}

// Pinned so that another compiler or machine that makes another stone is noticed. Only + − × ÷ √
// and integers are used, so IEEE arithmetic leaves no freedom. The values are what this code gives;
// a deliberate change of the stone's shape changes them.
TEST(Boulder, IsTheSameOnEveryMachine) {
  EXPECT_EQ(fingerprint(boulder_stone(4, {1.4, 1.1, 0.9})), 18142321452577173116ULL);
  EXPECT_EQ(fingerprint(boulder_stone(4294967295U, {1.0, 1.0, 1.0})), 14268652763564650451ULL);
}

TEST(Boulder, OfAnotherSeedIsAnotherStone) {
  EXPECT_NE(fingerprint(boulder_stone(4, {1, 1, 1})), fingerprint(boulder_stone(5, {1, 1, 1})));
}

TEST(Boulder, IsClosedIrregularAndFillsAFairShareOfItsBox) {
  for (std::uint32_t seed = 0; seed < 300; ++seed) {
    const geom::Mesh stone = boulder_stone(seed, {1.4, 1.1, 0.9});
    ASSERT_EQ(geom::open_edges(stone), 0U) << seed;
    const double share = geom::signed_volume(stone) / (1.4 * 1.1 * 0.9);
    // An ellipsoid in its box fills π/6 = 0.52.
    ASSERT_GT(share, 0.30) << seed;
    ASSERT_LT(share, 0.70) << seed;
    const geom::Box3 box = bounds(stone);
    ASSERT_NEAR(box.hi.x, 0.7, 1e-12);
    ASSERT_NEAR(box.lo.z, 0.0, 1e-12);
    ASSERT_NEAR(box.hi.z, 0.9, 1e-12);
  }
}

TEST(SteadyTurn, AgreesWithTheLibraryToTheLastBits) {
  for (double a = -100.0; a <= 100.0; a += 0.0371) {
    const CosSin t = steady_cos_sin(a);
    ASSERT_NEAR(t.cos, std::cos(a), 2e-14) << a;
    ASSERT_NEAR(t.sin, std::sin(a), 2e-14) << a;
    ASSERT_NEAR(t.cos * t.cos + t.sin * t.sin, 1.0, 1e-15) << a;
  }
  EXPECT_EQ(steady_cos_sin(0.0).cos, 1.0);
  EXPECT_EQ(steady_cos_sin(0.0).sin, 0.0);
}

}  // namespace
}  // namespace hummock

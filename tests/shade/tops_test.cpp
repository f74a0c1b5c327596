// Tops of things under many crowns: the crowns passed over by their boxes are those no line meets.
#include <gtest/gtest.h>

#include <random>

#include "engine/shade/beam/ray_beam.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

TEST(RayBeam, passes_over_only_crowns_that_no_line_meets) {
  std::mt19937 random(8);  // NOLINT(cert-msc51-cpp): the same yard every time
  const auto pick = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Model m = yard(0, 0, 30, 30, 1.0);
  for (int k = 0; k < 40; ++k) {
    const Vec3 at{pick(0, 30), pick(0, 30), pick(0.5, 4)};
    const Vec3 size{pick(0.3, 2), pick(0.3, 2), pick(0.5, 3)};
    Part& crown = add_part(m, "crown", PartKind::crown, ellipsoid(at, size, 8));
    crown.leaf_density = pick(0.2, 1.5);
    const auto kind = static_cast<geom::RoundKind>(k % 3);
    crown.round = geom::RoundVolume{
        kind, at, {size.x, 0.2 * size.y, 0}, {-0.2 * size.x, size.y, 0}, {0.1, 0, size.z}};
  }
  const std::vector<Caster> casters = casters_of(m);
  const RayBeam rays(m, casters, std::vector<bool>(casters.size(), false));
  const sun::Date date{2026, 6, 21};
  std::size_t dimmed = 0, asked = 0, near = 0;
  for (int k = 0; k < 200; ++k) {
    const SunRay sun = sun_ray(sun_at(pick(0, 360), pick(1, 80)).towards);
    const Vec3 lo{pick(0, 28), pick(0, 28), pick(0.1, 3)};
    const geom::Box3 box{lo, lo + Vec3{pick(0, 2), pick(0, 2), pick(0, 1)}};
    const std::vector<int> round = rays.round_near(box, sun);
    near += round.size();
    asked += 40;
    for (int s = 0; s < 20; ++s) {
      const Vec3 p{pick(box.lo.x, box.hi.x), pick(box.lo.y, box.hi.y), pick(box.lo.z, box.hi.z)};
      const double all = rays.at(p, sun, date);
      EXPECT_EQ(rays.at(p, sun, date, round), all);
      dimmed += all < 1.0 ? 1 : 0;
    }
  }
  EXPECT_GT(dimmed, 200U);
  EXPECT_LT(near, asked / 2);
}

}  // namespace
}  // namespace hummock::shade

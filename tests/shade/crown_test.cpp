// Crowns in closed form: the fast path, the rays and a crown of many facets agree.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

Part& add_crown(Model& m, geom::RoundVolume round, const geom::Mesh& mesh, double density) {
  Part& p = add_part(m, "crown", PartKind::crown, mesh);
  p.leaf_density = density;
  p.round = round;
  return p;
}

// Lines through a ball's middle: T = exp(−½ a · 2 r). On the edge of its shadow 1.
TEST(Crown, passes_light_by_its_chord) {
  constexpr double kRadius = 1.5, kHigh = 4.0, kDensity = 0.9;
  Model m = yard(-8, -8, 8, 8, 0.1);
  add_crown(m,
            {geom::RoundKind::ellipsoid,
             {0, 0, kHigh - kRadius},
             {kRadius, 0, 0},
             {0, kRadius, 0},
             {0, 0, 2 * kRadius}},
            ellipsoid({0, 0, kHigh}, {kRadius, kRadius, kRadius}, 16), kDensity);
  for (const sun::Position& s : twenty_suns()) {
    const geom::Raster b = beam(m, s, {});
    for (int j = 0; j < b.grid.ny; ++j)
      for (int i = 0; i < b.grid.nx; ++i) {
        const Vec3 p = at_height(b.grid.node(i, j), kLift) - Vec3{0, 0, kHigh};
        const Vec3 off = p - s.towards * dot(p, s.towards);
        const double half = std::sqrt(std::max(0.0, kRadius * kRadius - dot(off, off)));
        ASSERT_NEAR(b.at(i, j), std::exp(-0.5 * kDensity * 2.0 * half), 2e-4) << i << " " << j;
      }
  }
}

// A leaning cone, a cylinder and a ball with their feet on the ground, so that nodes lie in them.
TEST(Crown, is_the_same_by_tiles_and_by_rays) {
  Model m = yard(
      0, 0, 12, 9, 0.1, [](double x, double y) { return 60.0 + 0.2 * std::sin(x + y); }, 1.0);
  const geom::Mesh box = box_mesh({0, 0, 59}, {12, 9, 66});  // only its bounds are used
  add_crown(m, {geom::RoundKind::cone, {3, 3, 60.5}, {1.4, 0.2, 0}, {-0.2, 1.4, 0}, {0.5, 0, 4}},
            box, 1.1);
  add_crown(m, {geom::RoundKind::cylinder, {8, 3, 59.5}, {1, 0, 0}, {0, 1.6, 0}, {0, 0.3, 2.5}},
            box, 0.7);
  add_crown(m, {geom::RoundKind::ellipsoid, {6, 6, 59.6}, {1.7, 0, 0}, {0, 1.1, 0}, {0, 0, 3}}, box,
            1.3);
  m.parts.back().bare = Season{{11, 1}, {4, 1}};
  for (const sun::Position& s : twenty_suns()) {
    for (const sun::Date& date : {sun::Date{2026, 6, 21}, {2026, 12, 21}}) {
      Settings settings;
      settings.date = date;
      const geom::Raster fast = beam(m, s, settings), rays = beam_by_rays(m, s, settings);
      for (std::size_t n = 0; n < fast.values.size(); ++n) {
        if (std::isnan(fast.values[n])) continue;
        ASSERT_NEAR(fast.values[n], rays.values[n], 1e-3);
      }
    }
  }
}

}  // namespace
}  // namespace hummock::shade

// The sweep of the ground against rays.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/beam/ground_sweep.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// Smooth swells, with white noise of `noise` metres on every node.
Model ground_of(unsigned seed, double noise) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit_range(-1.0, 1.0);
  const double a = 0.5 + 0.4 * unit_range(random), b = 0.7 + 0.5 * unit_range(random);
  return yard(
      0, 0, 14, 11, 0.1,
      [&](double x, double y) {
        return 250.0 + 0.8 * std::sin(a * x) * std::cos(b * y) + 0.1 * std::sin(2.3 * x + 1.9 * y) +
               noise * unit_range(random);
      },
      1.0);
}

struct Tally {
  std::size_t nodes = 0, open = 0, wrong = 0;
};

// Nodes the sweep decides otherwise than the rays at the node and within a millimetre round it.
Tally compare(const Model& m, const SunRay& sun) {
  const FastBeam fast(m);
  const GroundStatus status = GroundSweep(m.ground).status(sun);
  Tally tally;
  for (const Tile& t : ground_tiles(m, m.ground.grid)) {
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (t.inside[k] == 0 || !faces(t, k, sun)) continue;
      ++tally.nodes;
      const int i = t.i0 + static_cast<int>(k) % kTile, j = t.j0 + static_cast<int>(k) / kTile;
      const GroundShade s = status.at(i, j);
      if (s == GroundShade::open) {
        ++tally.open;
        continue;
      }
      const double said = s == GroundShade::lit ? 1.0 : 0.0;
      bool found = false;
      for (int turn = -1; turn < 16 && !found; ++turn) {
        const double r = turn < 0 ? 0.0 : 0.001, angle = geom::kPi * turn / 8;
        const Vec2 p = m.ground.grid.node(i, j) + Vec2{r * std::cos(angle), r * std::sin(angle)};
        found = fast.rays().at(at_height(p, height_at(m.ground, p) + kLift), sun, {2026, 6, 21}) ==
                said;
      }
      if (!found) ++tally.wrong;
    }
  }
  return tally;
}

TEST(GroundSweep, agrees_with_rays_on_smooth_and_rough_ground) {
  for (const double noise : {0.0, 0.01, 0.08}) {
    Tally all;
    std::mt19937 random(17);
    for (unsigned seed = 1; seed <= 5; ++seed) {
      const Model m = ground_of(seed, noise);
      for (int k = 0; k < 4; ++k) {
        const double azimuth = std::uniform_real_distribution<double>(0, 360)(random);
        const double elevation = std::uniform_real_distribution<double>(1, 35)(random);
        const Tally t = compare(m, sun_ray(sun_at(azimuth, elevation).towards));
        EXPECT_EQ(t.wrong, 0U) << "noise " << noise << " seed " << seed << " sun " << azimuth << " "
                               << elevation;
        all.nodes += t.nodes;
        all.open += t.open;
      }
    }
    const double share = static_cast<double>(all.open) / static_cast<double>(all.nodes);
    std::printf("noise %.2f m: %.2f %% of %zu nodes left open\n", noise, 100 * share, all.nodes);
    if (noise == 0.0) {
      EXPECT_LT(share, 0.15);
    }
  }
}

TEST(GroundSweep, agrees_with_rays_for_suns_along_the_axes_and_diagonals) {
  const Model m = ground_of(3, 0.02);
  for (const double azimuth : {0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0}) {
    for (const double elevation : {3.0, 11.0, 45.0}) {
      EXPECT_EQ(compare(m, sun_ray(sun_at(azimuth, elevation).towards)).wrong, 0U)
          << azimuth << " " << elevation;
    }
  }
}

}  // namespace
}  // namespace hummock::shade

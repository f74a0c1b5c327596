// The sky view: kept from day to day, and against many more directions by rays.
#include "engine/shade/sky/sky_views.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <random>

#include "engine/shade/beam/fast_beam.h"
#include "engine/shade/shade.h"
#include "tests/shade/yards.h"
#include "tests/shade_year/boxes_and_crowns.h"

namespace hummock::shade {
namespace {

// Mesh, a wall, boxes and crowns that drop their leaves, on rolling ground.
Model sky_yard(unsigned seed) {
  std::mt19937 random(seed);
  Model m = yard(
      0, 0, 8, 8, 0.5, [](double x, double y) { return 0.3 * std::sin(x) * std::cos(1.1 * y); },
      1.0);
  as_mesh(add_wall(m, "south", {-0.01, -0.01}, {8.01, -0.01}, -1, between(random, 1, 3)), 0.025,
          0.003);
  add_wall(m, "east", {8.01, -0.01}, {8.01, 8.01}, -1, between(random, 1, 3));
  add_boxes_and_crowns(m, random, 0);
  return m;
}

bool same(const geom::Raster& a, const geom::Raster& b) {
  return std::memcmp(a.values.data(), b.values.data(), a.values.size() * sizeof(float)) == 0;
}

TEST(SkyViews, known_of_another_day_change_nothing) {
  const Model m = sky_yard(3);
  Settings june, july, winter;
  june.step_minutes = july.step_minutes = winter.step_minutes = 60;
  july.date = {2026, 7, 20};
  winter.date = {2026, 12, 21};
  const Day first = analyse(m, june);
  ASSERT_EQ(first.sky->states.size(), 1U);
  for (const Settings& s : {july, winter}) {
    const Day alone = analyse(m, s), with = analyse(m, s, {}, first.sky);
    EXPECT_TRUE(same(alone.sky_view, with.sky_view));
    EXPECT_TRUE(same(alone.irradiation_kwh_m2, with.irradiation_kwh_m2));
    EXPECT_EQ(with.sky->states.size(), s.date == winter.date ? 2U : 1U);
  }
  Settings coarse = july;
  coarse.cell = 1.0;
  EXPECT_TRUE(same(analyse(m, coarse).sky_view, analyse(m, coarse, {}, first.sky).sky_view));
}

// Isotropic light on a node's slope by one ray through each of `side`² cells of equal share of a
// level surface's light.
double view_by_rays(const RayBeam& rays, Vec3 from, Vec2 gradient, const sun::Date& date,
                    int side) {
  double sum = 0.0;
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j) {
      const double flat = std::sqrt((i + 0.5) / side), up = std::sqrt(1.0 - flat * flat);
      const double turn = 2.0 * geom::kPi * (j + 0.5) / side;
      const Vec3 to{flat * std::sin(turn), flat * std::cos(turn), up};
      const double light = 1.0 - (gradient.x * to.x + gradient.y * to.y) / up;
      if (light > 0.0) sum += light * rays.at(from, sun_ray(to), date);
    }
  const double steep = std::sqrt(1.0 + gradient.x * gradient.x + gradient.y * gradient.y);
  return sum / (side * side) / steep;
}

// 384 directions against 16,384.
TEST(SkyViews, agree_with_forty_times_as_many_rays) {
  double most = 0.0, mean = 0.0, bias = 0.0, count = 0.0;
  for (unsigned seed = 1; seed <= 3; ++seed) {
    const Model m = sky_yard(seed);
    Settings settings;
    settings.step_minutes = 120;
    const Day day = analyse(m, settings);
    const FastBeam fast(m);
    for (const Tile& tile : ground_tiles(m, m.ground.grid))
      for (std::size_t k = 5; k < kTileNodes; k += 23) {
        if (tile.inside[k] == 0) continue;
        const Vec3 from = tile.ref + Vec3{tile.x[k], tile.y[k], tile.z[k]};
        const double off =
            day.sky_view.values[tile.node(m.ground.grid, k)] -
            view_by_rays(fast.rays(), from, {tile.gx[k], tile.gy[k]}, settings.date, 128);
        most = std::max(most, std::abs(off));
        mean += std::abs(off);
        bias += off;
        count += 1.0;
      }
  }
  ASSERT_GT(count, 20.0);
  EXPECT_LT(most, 0.02);
  EXPECT_LT(mean / count, 0.005);
  EXPECT_LT(std::abs(bias) / count, 0.004);
  RecordProperty("off", std::to_string(mean / count) + " most " + std::to_string(most) + " bias " +
                            std::to_string(bias / count));
}

}  // namespace
}  // namespace hummock::shade

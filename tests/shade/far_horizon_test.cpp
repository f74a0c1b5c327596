// The land beyond the modelled ground hides the sun as its surface does.
#include "engine/shade/beam/far_horizon.h"

#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/shade.h"
#include "geometry/rays/ray_scene.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// Land of `cell` metres `reach` beyond the yard of 40 × 30 m, z = height(x, y).
Model valley(double cell, double reach, const std::function<double(double, double)>& height) {
  Model m = yard(0, 0, 40, 30, 0.5, height, 10.0);
  geom::Heightfield land =
      geom::level_ground({{-reach, -reach}, {40 + reach, 30 + reach}}, cell, 0.0);
  for (int j = 0; j < land.grid.ny; ++j)
    for (int i = 0; i < land.grid.nx; ++i) {
      const Vec2 p = land.grid.node(i, j);
      land.at(i, j) = height(p.x, p.y);
    }
  m.beyond = std::make_shared<geom::Heightfield>(std::move(land));
  return m;
}

// A dyke 30 m high 90 m south of a level yard: at noon it hides the sun up to
// atan(30 / (y + 90)) seen from y.
TEST(FarHorizon, of_a_dyke_is_its_angle) {
  const Model m = valley(
      2.0, 120, [](double, double y) { return std::max(0.0, 30.0 - 10.0 * std::abs(y + 90.0)); });
  const FarHorizon far(m);
  for (double y = 0.5; y < 30.0; y += 3.7) {
    const double edge = std::atan2(30.0 - kLift, y + 90.0) / geom::kDegree;
    for (const double azimuth : {180.0, 171.3, 193.9}) {
      const double turned =
          std::atan(std::tan(edge * geom::kDegree) * std::cos((azimuth - 180.0) * geom::kDegree)) /
          geom::kDegree;
      const auto hides = [&](double elevation) {
        return far.hides({17.3, y, kLift}, sun_ray(sun_at(azimuth, elevation).towards));
      };
      EXPECT_TRUE(hides(turned - 0.25)) << y << " " << azimuth;
      EXPECT_FALSE(hides(turned + 0.25)) << y << " " << azimuth;
    }
  }
}

// Hills all round from 10 m outside the yard on, against rays at the land's own triangles: the sun
// a half degree higher and lower never disagrees.
TEST(FarHorizon, agrees_with_rays_at_the_land_to_half_a_degree) {
  const Model m = valley(2.0, 200, [](double x, double y) {
    const double away = std::max({0.0, -x - 10, x - 50, -y - 10, y - 40});
    return 0.02 * x + away * (0.25 + 0.12 * std::sin(0.05 * x) * std::cos(0.043 * y));
  });
  const FarHorizon far(m);
  geom::RayScene scene;
  scene.add_ground(*m.beyond, 0);
  scene.commit();
  int hidden = 0, seen = 0;
  for (const sun::Position& middle : twenty_suns())
    for (double elevation = 2.0; elevation < 34.0; elevation += 1.7)
      for (const Vec2 p : {Vec2{1.3, 2.2}, {20.1, 14.7}, {38.4, 3.9}, {11.1, 28.8}}) {
        const Vec3 from = at_height(p, height_at(m.ground, p) + kLift);
        const double azimuth = middle.azimuth / geom::kDegree;
        const auto by_rays = [&](double e) {
          return scene.occluded({from, sun_at(azimuth, e).towards, 12.0, 2000.0});
        };
        const bool low = by_rays(elevation - 0.5), high = by_rays(elevation + 0.5);
        if (low != high) continue;
        (low ? hidden : seen) += 1;
        EXPECT_EQ(far.hides(from, sun_ray(sun_at(azimuth, elevation).towards)), low)
            << azimuth << " " << elevation << " at " << p.x << " " << p.y;
      }
  EXPECT_GT(hidden, 200);
  EXPECT_GT(seen, 200);
}

// At a post, in a direction that is looked in, against every break of the land on the way.
TEST(FarHorizon, is_the_steepest_of_all_that_the_land_has_on_the_way) {
  const Model m = valley(2.0, 150, [](double x, double y) {
    const double away = std::max({0.0, -x - 10, x - 50, -y - 10, y - 40});
    return away * (0.2 + 0.15 * std::sin(0.31 * x) * std::cos(0.23 * y)) * std::exp(-away / 70);
  });
  const FarHorizon far(m);
  const Vec2 post = m.outline.front();
  const Vec3 eye = at_height(post, height_at(m.ground, post) + kLift);
  for (int azimuth = 0; azimuth < FarHorizon::kAzimuths; ++azimuth) {
    const double a = azimuth * geom::kDegree;
    const Vec2 way{std::sin(a), std::cos(a)};
    const auto leaves = [&](const geom::Grid& g) {
      const auto along = [](double at, double step, double lo, double hi) {
        return std::abs(step) < 1e-12 ? 1e30 : ((step > 0 ? hi : lo) - at) / step;
      };
      return std::min(along(post.x, way.x, g.x0, g.x_max()), along(post.y, way.y, g.y0, g.y_max()));
    };
    const double begin = leaves(m.ground.grid), end = leaves(m.beyond->grid);
    const auto tangent_at = [&](double d) {
      return (height_at(*m.beyond, post + way * d) - eye.z) / d;
    };
    double steepest = tangent_at(begin);
    for (const double t : geom::ground_breaks(*m.beyond, post, post + way * end))
      if (end * t > begin) steepest = std::max(steepest, tangent_at(end * t));
    const auto hides = [&](double tangent) {
      return far.hides(eye, sun_ray(sun_at(azimuth, std::atan(tangent) / geom::kDegree).towards));
    };
    ASSERT_GT(steepest, 0.01);
    EXPECT_TRUE(hides(steepest - 1e-4)) << azimuth;
    EXPECT_FALSE(hides(steepest + 1e-4)) << azimuth;
  }
}

// A careful body's day takes the land as its own day saw it.
TEST(FarHorizon, is_the_same_for_another_body) {
  Model m = valley(4.0, 200, [](double x, double y) {
    return std::max(0.0, 0.35 * (std::hypot(x - 20, y - 15) - 45));
  });
  add_wall(m, "wall", {10.0, 12.0}, {30.0, 14.0}, -0.1, 1.5);
  Settings settings;
  settings.step_minutes = 60.0;
  const Day known = analyse(m, settings);
  m.site.species.body.value = {0.9, 0.3, 0.7};
  const Day whole = analyse(m, settings), again = with_another_body(m, settings, known);
  ASSERT_NE(whole.shaded_share, known.shaded_share);
  EXPECT_EQ(again.shaded_share, whole.shaded_share);
}

// By tiles and by rays.
TEST(FarHorizon, darkens_the_beam_of_both_ways_alike) {
  Model m = valley(4.0, 200, [](double x, double y) {
    return std::max(0.0, 0.35 * (std::hypot(x - 20, y - 15) - 45));
  });
  for (const sun::Position& s : {sun_at(95, 8), sun_at(171, 17), sun_at(250, 14)}) {
    const geom::Raster fast = beam(m, s, {}), rays = beam_by_rays(m, s, {});
    for (std::size_t n = 0; n < fast.values.size(); ++n) {
      if (std::isnan(fast.values[n])) continue;
      ASSERT_EQ(fast.values[n], rays.values[n]);
    }
  }
}

}  // namespace
}  // namespace hummock::shade

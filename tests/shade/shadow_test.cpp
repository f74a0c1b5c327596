// Shadows against their closed forms.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

double shaded_area(const geom::Raster& beam) {
  double n = 0;
  for (const float v : beam.values) n += v < 0.5F ? 1 : 0;
  return n * beam.grid.cell * beam.grid.cell;
}

// A lattice of points counts an area with an error of about the edge's length times the cell times
// a half at worst; a straight edge does far better.
double allowed(double edge, double cell) {
  return 0.3 * edge * cell + 4 * cell * cell;
}

TEST(Shadow, of_a_pole_has_the_length_of_its_height_over_the_tangent) {
  constexpr double kHeight = 0.8, kCell = 0.05, kHalf = 0.06;
  Model m = yard(-7, -7, 7, 7, kCell);
  add_solid(m, "pole", box_mesh({-kHalf, -kHalf, -0.1}, {kHalf, kHalf, kHeight}));
  for (const sun::Position& s : twenty_suns()) {
    const geom::Raster b = beam(m, s, {});
    double farthest = 0.0;
    const Vec2 away{-std::sin(s.azimuth), -std::cos(s.azimuth)};
    double sideways = 0.0;
    for (int j = 0; j < b.grid.ny; ++j) {
      for (int i = 0; i < b.grid.nx; ++i) {
        if (b.at(i, j) > 0.5F) continue;
        farthest = std::max(farthest, dot(b.grid.node(i, j), away));
        sideways = std::max(sideways, std::abs(cross(b.grid.node(i, j), away)));
      }
    }
    // From the axis; the pole's top corners reach up to its half width further.
    EXPECT_NEAR(farthest, kHeight / std::tan(s.elevation) + 0.5 * kHalf * std::sqrt(2.0),
                kCell * std::sqrt(2.0) + 0.5 * kHalf * std::sqrt(2.0))
        << s.azimuth / geom::kDegree << " " << s.elevation / geom::kDegree;
    EXPECT_LE(sideways, kHalf * std::sqrt(2.0) + 1e-9);
  }
}

TEST(Shadow, of_a_wall_has_the_area_of_the_closed_form) {
  constexpr double kHeight = 0.9, kLength = 3.0, kCell = 0.02;
  Model m = yard(-8, -8, 8, 8, kCell);
  add_wall(m, "wall", {-kLength / 2, 0.003}, {kLength / 2, 0.003}, -0.1, kHeight);
  for (const sun::Position& s : twenty_suns()) {
    const double reach = kHeight / std::tan(s.elevation);
    const double area = kLength * reach * std::abs(std::cos(s.azimuth));
    EXPECT_NEAR(shaded_area(beam(m, s, {})), area, allowed(2 * (kLength + reach), kCell))
        << s.azimuth / geom::kDegree << " " << s.elevation / geom::kDegree;
  }
}

TEST(Shadow, of_a_box_has_the_area_of_the_closed_form) {
  constexpr double kW = 1.2, kD = 0.7, kHeight = 0.8, kCell = 0.02;
  Model m = yard(-8, -8, 8, 8, kCell);
  add_solid(m, "box", box_mesh({-kW / 2, -kD / 2, -0.1}, {kW / 2, kD / 2, kHeight}));
  for (const sun::Position& s : twenty_suns()) {
    const double reach = kHeight / std::tan(s.elevation);
    // The base swept along the shift, less the base itself: the ground under the box is no ground.
    const double area =
        reach * (kW * std::abs(std::cos(s.azimuth)) + kD * std::abs(std::sin(s.azimuth)));
    EXPECT_NEAR(shaded_area(beam(m, s, {})), area, allowed(2 * (kW + kD + reach), kCell))
        << s.azimuth / geom::kDegree << " " << s.elevation / geom::kDegree;
  }
}

// An ellipse of area π r² / sin a.
TEST(Shadow, of_a_ball_is_an_ellipse) {
  constexpr double kCell = 0.02;
  Model m = yard(-6, -6, 6, 6, kCell);
  add_solid(m, "ball", ellipsoid({0, 0, 1.2}, {1, 1, 1}, 96));
  for (const double elevation : {30.0, 45.0, 60.0}) {
    const double area = geom::kPi / std::sin(elevation * geom::kDegree);
    EXPECT_NEAR(shaded_area(beam(m, sun_at(200, elevation), {})), area,
                allowed(8.0, kCell) + 0.002 * area);
  }
}

TEST(Shadow, a_slope_that_faces_away_is_lit_exactly_when_the_sun_stands_over_its_plane) {
  for (const double slope : {5.0, 20.0, 35.0}) {
    for (const double falls : {0.0, 77.0, 160.0, 301.0}) {  // compass direction of the fall
      const double t = std::tan(slope * geom::kDegree);
      const double fx = std::sin(falls * geom::kDegree), fy = std::cos(falls * geom::kDegree);
      const Model m =
          yard(-3, -3, 3, 3, 0.25, [&](double x, double y) { return -t * (fx * x + fy * y); });
      for (double azimuth = 3.0; azimuth < 360.0; azimuth += 29.0) {
        for (const double elevation : {2.0, 4.9, 5.1, 12.0, 19.0, 34.0, 36.0, 70.0}) {
          const sun::Position s = sun_at(azimuth, elevation);
          // The plane's normal is (t·fx, t·fy, 1).
          const double over = t * fx * s.towards.x + t * fy * s.towards.y + s.towards.z;
          if (std::abs(over) < 1e-6) continue;
          const geom::Raster b = beam(m, s, {});
          for (const float v : b.values) {
            ASSERT_EQ(v, over > 0 ? 1.0F : 0.0F)
                << slope << " falls " << falls << " sun " << azimuth << " " << elevation;
          }
        }
      }
    }
  }
}

TEST(Shadow, of_a_ridge_lies_where_its_crest_hides_the_sun) {
  // A ridge along y with a triangular section of height 1 and half width 2, on x = 0.
  const Model m = yard(
      -12, -1, 12, 1, 0.1, [](double x, double) { return std::max(0.0, 1 - std::abs(x) / 2); },
      0.5);
  const sun::Position s = sun_at(270.0, 12.0);  // from the west, low
  const geom::Raster b = beam(m, s, {});
  const double reach = 1.0 / std::tan(s.elevation);
  for (int j = 0; j < b.grid.ny; ++j) {
    for (int i = 0; i < b.grid.nx; ++i) {
      const double x = b.grid.node(i, j).x;
      if (std::isnan(b.at(i, j)) || std::abs(x) < 0.11 || std::abs(x - reach) < 0.011) continue;
      ASSERT_EQ(b.at(i, j), x > 0 && x < reach ? 0.0F : 1.0F) << x;
    }
  }
}

TEST(Shadow, falls_from_blocks_outside_the_fence) {
  Model m = yard(0, 0, 6, 6, 0.1);
  add_part(m, "stable", PartKind::surrounding, box_mesh({-50, -6, 0}, {50, -4, 5}));
  const geom::Raster b = beam(m, sun_at(180.0, 30.0), {});
  const double reach = -4.0 + 5.0 / std::tan(30.0 * geom::kDegree);  // 4.66 m into the yard
  for (int j = 0; j < b.grid.ny; ++j) {
    const double y = b.grid.node(0, j).y;
    if (std::abs(y - reach) > 0.01) {
      EXPECT_EQ(b.at(20, j), y < reach ? 0.0F : 1.0F) << y;
    }
  }
}

TEST(Shadow, the_horizon_profile_hides_the_sun_below_it) {
  Model m = yard(0, 0, 2, 2, 0.5);
  using geom::kDegree;
  m.site.place->horizon = {
      {90 * kDegree, 5 * kDegree}, {180 * kDegree, 20 * kDegree}, {270 * kDegree, 5 * kDegree}};
  EXPECT_EQ(beam(m, sun_at(180, 19.9), {}).values[0], 0.0F);
  EXPECT_EQ(beam(m, sun_at(180, 20.1), {}).values[0], 1.0F);
  EXPECT_EQ(beam(m, sun_at(135, 12.4), {}).values[0], 0.0F);  // halfway: 12.5°
  EXPECT_EQ(beam(m, sun_at(135, 12.6), {}).values[0], 1.0F);
  EXPECT_EQ(beam(m, sun_at(0, 4.9), {}).values[0], 0.0F);  // between the last and the first
  EXPECT_EQ(beam(m, sun_at(0, 5.1), {}).values[0], 1.0F);
}

TEST(Shadow, the_sun_s_disc_softens_the_edge_by_its_half_degree) {
  Model m = yard(-3, -1, 60, 1, 0.05);
  add_wall(m, "wall", {0.0, -400.0}, {0.0, 400.0}, -0.1, 10.0);
  Settings settings;
  settings.sun_disc = true;
  const sun::Position s = sun_at(270.0, 20.0);
  const geom::Raster soft = beam(m, s, settings);
  // Clear of the disc's lower and upper limb; half way in between half the sun.
  const auto edge = [&](double degrees) {
    return 10.0 / std::tan((20.0 + degrees) * geom::kDegree);
  };
  const int j = soft.grid.ny / 2;
  for (int i = 0; i < soft.grid.nx; ++i) {
    const double x = soft.grid.node(i, j).x;
    if (x > 0.05 && x < edge(0.2666)) {
      EXPECT_LE(soft.at(i, j), 0.0F) << x;
    }
    if (x > edge(-0.2666)) {
      EXPECT_GE(soft.at(i, j), 1.0F) << x;
    }
    if (std::abs(x - edge(0.0)) < 0.03) {
      EXPECT_NEAR(soft.at(i, j), 0.5, 0.08) << x;
    }
  }
}

}  // namespace
}  // namespace hummock::shade

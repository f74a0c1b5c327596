// What mesh, leaves and glass let through.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shade/beam/casters.h"
#include "engine/shade/shade.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

// Straight round wires one by one: level ones at heights k·p and upright ones at x = k·p, in the
// plane y = 0. A ray is stopped if it passes a wire's axis closer than half the wire.
bool stopped_by_wires(Vec3 at, Vec3 towards, double pitch, double wire) {
  for (const bool level : {true, false}) {
    // Seen along the wire the ray is a line in the plane (across, y).
    const double across = level ? at.z : at.x;
    const double da = level ? towards.z : towards.x;
    const double norm = std::hypot(da, towards.y);
    const double first = std::floor(across / pitch);
    for (int n = -40; n <= 41; ++n) {
      const double miss = std::abs(((first + n) * pitch - across) * towards.y) / norm;
      if (miss < wire / 2) return true;
    }
  }
  return false;
}

TEST(Transmittance, of_slant_mesh_is_that_of_its_wires_one_by_one) {
  constexpr double kPitch = 0.028, kWire = 0.003;
  constexpr unsigned kSeed = 11;
  Caster sheet;
  sheet.kind = CasterKind::sheet;
  sheet.pitch = kPitch;
  sheet.wire = kWire;
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> unit_range(0.0, 1.0);
  for (const double azimuth : {0.0, 25.0, 50.0, 70.0}) {
    for (const double elevation : {5.0, 30.0, 55.0}) {
      const Vec3 towards = sun_at(azimuth, elevation).towards;
      int passed = 0;
      constexpr int kRays = 20000;
      for (int k = 0; k < kRays; ++k) {
        const Vec3 at{unit_range(random) * kPitch, 0.0, unit_range(random) * kPitch};
        if (!stopped_by_wires(at, towards, kPitch, kWire)) ++passed;
      }
      // Three standard deviations of the count.
      EXPECT_NEAR(sheet_transmittance(sheet, {0, 1, 0}, towards),
                  static_cast<double>(passed) / kRays, 3 * 0.5 / std::sqrt(kRays))
          << azimuth << " " << elevation << " seed " << kSeed;
    }
  }
}

// Open area of square mesh, ISO 9044 terms: 100 (w/(w+d))².
TEST(Transmittance, of_mesh_straight_on_is_its_open_area) {
  const double rows[5][3] = {{50, 3.15, 88.498},
                             {50, 2.5, 90.703},
                             {25, 2, 85.734},
                             {100, 4, 92.456},
                             {12.7, 1.05, 85.310}};
  for (const auto& row : rows) {
    Caster sheet;
    sheet.pitch = (row[0] + row[1]) / 1000;
    sheet.wire = row[1] / 1000;
    EXPECT_NEAR(100 * sheet_transmittance(sheet, {0, 1, 0}, {0, 1, 0}), row[2], 5e-4);
  }
}

TEST(Transmittance, of_mesh_is_nought_along_it_and_the_same_from_both_sides) {
  Caster sheet;
  sheet.pitch = 0.028;
  sheet.wire = 0.003;
  EXPECT_EQ(sheet_transmittance(sheet, {0, 1, 0}, {1, 0, 0}), 0.0);
  const Vec3 s = sun_at(33, 21).towards;
  EXPECT_DOUBLE_EQ(sheet_transmittance(sheet, {0, 1, 0}, s),
                   sheet_transmittance(sheet, {0, -1, 0}, s));
}

TEST(Transmittance, a_mesh_panel_s_shadow_is_even_across_its_diagonal) {
  Model m = yard(-4, -4, 4, 4, 0.1);
  as_mesh(add_wall(m, "panel", {-2.0, 0.0}, {2.0, 0.0}, 0.0, 2.0), 0.025, 0.003);
  Caster sheet;
  sheet.pitch = 0.028;
  sheet.wire = 0.003;
  for (const double azimuth : {180.0, 165.0, 217.0}) {
    const sun::Position s = sun_at(azimuth, 45.0);
    const double share = sheet_transmittance(sheet, {0, 1, 0}, s.towards);
    int inside = 0;
    for (const bool by_rays : {false, true}) {
      const geom::Raster b = by_rays ? beam_by_rays(m, s, {}) : beam(m, s, {});
      for (int j = 0; j < b.grid.ny; ++j) {
        for (int i = 0; i < b.grid.nx; ++i) {
          const Vec2 p = b.grid.node(i, j);
          const double along = p.y * s.towards.y / s.towards.z;  // height of the ray at the panel
          const double height = -p.y / s.towards.y * s.towards.z;
          const double x = p.x - p.y / s.towards.y * s.towards.x;
          (void)along;
          if (height > 0.01 && height < 1.99 && std::abs(x) < 1.99) {
            ASSERT_NEAR(b.at(i, j), share, 1e-6) << p.x << " " << p.y << " rays " << by_rays;
            ++inside;
          }
        }
      }
    }
    EXPECT_GT(inside, 500);
  }
}

// The values of nodes where an animal can lie: all but those along the outline.
std::vector<float> told(const geom::Raster& r) {
  std::vector<float> out;
  for (const float v : r.values)
    if (!std::isnan(v)) out.push_back(v);
  EXPECT_GT(out.size(), r.values.size() * 8 / 10);
  return out;
}

// exp(−G a l) with G 0.5: a slab of leaves of known thickness, from below and from within.
TEST(Transmittance, of_a_crown_is_beer_lambert_over_the_true_path) {
  Model m = yard(-3, -3, 3, 3, 0.1);
  Part& crown = add_part(m, "crown", PartKind::crown, box_mesh({-20, -20, 2.0}, {20, 20, 3.5}));
  crown.blocks_body = false;
  crown.leaf_density = 0.6;
  crown.bare = Season{{11, 1}, {4, 1}};
  for (const double elevation : {30.0, 50.0, 80.0}) {
    const sun::Position s = sun_at(201.0, elevation);
    const double path = 1.5 / std::sin(elevation * geom::kDegree);
    for (const auto& [date, density] : {std::pair{sun::Date{2026, 6, 21}, 0.6},
                                        std::pair{sun::Date{2026, 12, 21}, 0.6 * kBareShare}}) {
      Settings settings;
      settings.date = date;
      const float expected = static_cast<float>(std::exp(-0.5 * density * path));
      for (const float v : told(beam(m, s, settings))) ASSERT_NEAR(v, expected, 2e-5);
      for (const float v : told(beam_by_rays(m, s, settings))) ASSERT_NEAR(v, expected, 2e-5);
    }
  }
  // Standing in leaves up to 1.2 m.
  m.parts.clear();
  Part& grass = add_part(m, "grass", PartKind::planting, box_mesh({-20, -20, -0.5}, {20, 20, 1.2}));
  grass.blocks_body = false;
  grass.leaf_density = 1.0;
  const sun::Position s = sun_at(120.0, 40.0);
  const double expected = std::exp(-0.5 * (1.2 - 0.001) / std::sin(40.0 * geom::kDegree));
  for (const float v : told(beam(m, s, {}))) ASSERT_NEAR(v, expected, 2e-5);
  for (const float v : told(beam_by_rays(m, s, {}))) ASSERT_NEAR(v, expected, 2e-5);
}

// Through the middle of a ball of leaves the path is its diameter; its mean over the shadow that
// of a ball: mean of exp(−2 k r cos) is (1 − (1 + 2kr) exp(−2kr)) / (2 k² r²).
TEST(Transmittance, of_a_round_crown_meets_the_ball_s_closed_form) {
  Model m = yard(-4, -4, 4, 4, 0.05);
  add_part(m, "crown", PartKind::crown, ellipsoid({0, 0, 3}, {1.2, 1.2, 1.2}, 128)).leaf_density =
      1.0;
  const sun::Position s = sun_at(180.0, 60.0);
  const geom::Raster b = beam(m, s, {});
  const double k = 0.5, r = 1.2;
  double sum = 0, count = 0, least = 1;
  for (const float v : b.values) {
    if (v >= 1.0F) continue;
    sum += v;
    count += 1;
    least = std::min<double>(least, v);
  }
  EXPECT_NEAR(least, std::exp(-2 * k * r), 0.002);
  EXPECT_NEAR(sum / count, (1 - (1 + 2 * k * r) * std::exp(-2 * k * r)) / (2 * k * k * r * r),
              0.01);
}

TEST(Transmittance, of_one_thing_behind_another_multiplies) {
  Model m = yard(-1, -1, 1, 1, 0.1);
  add_wall(m, "glass", {-90, -2}, {90, -2}, -0.1, 50).openness = 0.8;
  add_wall(m, "other glass", {-90, -3}, {90, -3}, -0.1, 50).openness = 0.5;
  Part& hedge = add_part(m, "hedge", PartKind::surrounding, box_mesh({-90, -6, -1}, {90, -5, 60}));
  hedge.leaf_density = 2.0;
  const sun::Position s = sun_at(180.0, 30.0);
  const double path = 1.0 / std::cos(30.0 * geom::kDegree);
  for (const float v : told(beam(m, s, {}))) {
    ASSERT_NEAR(v, 0.8 * 0.5 * std::exp(-path), 2e-5);
  }
}

}  // namespace
}  // namespace hummock::shade

#include "engine/earthworks/earthworks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/earthworks/earthworks_json.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

// Level survey, `height` over it, cells of `cell`, the boundary well inside.
template <class Height>
Model shaped(double cell, Height height) {
  const geom::Heightfield ground = tests::surface({-5, -5}, {5, 5}, cell, height);
  Model model = tests::bare_model(ground, tests::rectangle(-4, -4, 4, 4));
  model.surveyed.z.assign(ground.z.size(), 0.0);
  return model;
}

TEST(Earthworks, ARaisedCosineMoundOnAPlaneIsItsClosedForm) {
  // h (1 + cos(π d / R)) / 2 out to R: ∫ = h R² (π/2 − 2/π).
  const double h = 0.9, radius = 2.5;
  const auto mound = [&](double x, double y) {
    const double d = std::hypot(x, y);
    return d < radius ? h * (1.0 + std::cos(geom::kPi * d / radius)) / 2.0 : 0.0;
  };
  const double exact = h * radius * radius * (geom::kPi / 2.0 - 2.0 / geom::kPi);
  for (const double cell : {0.1, 0.05}) {
    const earthworks::Result r = earthworks::analyse(shaped(cell, mound));
    EXPECT_NEAR(r.fill_m3, exact, 0.1 * cell * cell * exact);
    EXPECT_EQ(r.cut_m3, 0.0);
    EXPECT_NEAR(r.balance_m3, r.fill_m3, 1e-12);
    EXPECT_NEAR(r.highest_fill_m, h, 1e-12);
  }
}

TEST(Earthworks, AMoundOnASlopeCountsAgainstTheSlope) {
  const auto mound = [](double x, double y) { return std::max(0.0, 0.5 - 0.25 * (x * x + y * y)); };
  Model model = shaped(0.1, mound);
  const earthworks::Result flat = earthworks::analyse(model);
  for (std::size_t n = 0; n < model.ground.z.size(); ++n) {
    const auto nx = static_cast<std::size_t>(model.ground.grid.nx);
    const std::size_t row = n / nx;
    const double plane = 0.02 * static_cast<double>(n % nx) - 0.01 * static_cast<double>(row);
    model.ground.z[n] += plane;
    model.surveyed.z[n] += plane;
  }
  const earthworks::Result tilted = earthworks::analyse(model);
  EXPECT_NEAR(tilted.fill_m3, flat.fill_m3, 1e-9);
  EXPECT_NEAR(tilted.cut_m3, 0.0, 1e-9);
}

TEST(Earthworks, CutAndFillOfAWaveAreEqualAndKnown) {
  // A sin(2πx/L) over whole waves: fill = cut = area · A/π.
  const Model model = shaped(0.05, [](double x, double) { return 0.3 * std::sin(geom::kPi * x); });
  const earthworks::Result r = earthworks::analyse(model);
  EXPECT_NEAR(r.fill_m3, 100.0 * 0.3 / geom::kPi, 100.0 * 0.3 / geom::kPi * 3e-3);
  EXPECT_NEAR(r.balance_m3, 0.0, 1e-9);
  EXPECT_NEAR(r.cut_area_m2, 50.0, 1e-6);
}

TEST(Earthworks, AConeAtReposeIsMarkedJustWhenSteeperThanItsSoil) {
  // OSHA 29 CFR 1926 Subpart P App. B Table B-1: type C 1½:1 = 33.690°, type B 1:1 = 45°. Clay that
  // was dug is type B (App. A: disturbed soil is never type A).
  for (const auto& [soil, degrees] :
       {std::pair{Soil::sand, 33.690}, {Soil::loam, 45.0}, {Soil::clay, 45.0}}) {
    EXPECT_NEAR(earthworks::repose_of(soil).angle / geom::kDegree, degrees, 5e-4);
    for (const double over : {-0.5, 0.5}) {
      const double rise = std::tan((degrees + over) * geom::kDegree);
      Model model = shaped(0.1, [&](double x, double) { return rise * std::abs(x); });
      model.site.ground.soil = soil;
      const earthworks::Result r = earthworks::analyse(model);
      EXPECT_NEAR(r.steepest_deg, degrees + over, 1e-6);
      EXPECT_NEAR(r.too_steep_area_m2, over > 0.0 ? 64.0 : 0.0, 1e-9);
      EXPECT_EQ(std::isnan(r.too_steep.at(50, 50)), over < 0.0);
    }
  }
}

TEST(Earthworks, SteepGroundOutsideTheBoundaryIsNotMarked) {
  const Model model = shaped(0.1, [](double x, double) { return x > 4.3 ? 2.0 * (x - 4.3) : 0.0; });
  const earthworks::Result r = earthworks::analyse(model);
  EXPECT_EQ(r.too_steep_area_m2, 0.0);
  EXPECT_GT(r.fill_m3, 0.0);  // but its earth is counted
}

TEST(Earthworks, JsonAndFiguresSayTheSame) {
  const Model model = shaped(0.1, [](double x, double y) { return 0.01 * x * y; });
  const earthworks::Result r = earthworks::analyse(model);
  const nlohmann::json j = earthworks::to_json(r, model);
  Figures figures;
  earthworks::add_figures(r, model, figures);
  EXPECT_DOUBLE_EQ(j.at("cut_m3").get<double>(), r.cut_m3);
  EXPECT_DOUBLE_EQ(*figures.at("earthworks.cut_m3").value, r.cut_m3);
  EXPECT_NE(j.at("repose_source").get<std::string>().find("Table B-1"), std::string::npos);
}

TEST(Earthworks, SnowIsNoFill) {
  Model model = shaped(0.1, [](double, double) { return 0.4; });
  model.snow = 0.4;  // the ground lies 0.4 m higher by snow alone
  const earthworks::Result r = earthworks::analyse(model);
  EXPECT_NEAR(r.fill_m3, 0.0, 1e-9);
  EXPECT_NEAR(r.highest_fill_m, 0.0, 1e-12);
}

}  // namespace
}  // namespace hummock

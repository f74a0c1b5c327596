// ISO 25178-2 figures against their closed forms, with the order at which the error falls.
#include "engine/relief/relief.h"

#include <gsl/gsl_sf_ellint.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/relief/relief_json.h"
#include "geometry/terrain/surface_moments.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::kPi;
using tests::bare_model;
using tests::rectangle;
using tests::surface;

using Named = std::map<std::string, double>;

Named figures(const relief::Result& r) {
  return {{"sa", r.sa_m}, {"sq", r.sq_m}, {"sz", r.sz_m}, {"ssk", r.ssk},
          {"sku", r.sku}, {"sdq", r.sdq}, {"sdr", r.sdr}};
}

// Halves the cell again and again: every figure ends within `last_bound` of the truth, and its
// error falls at second order unless it is already rounding.
void expect_second_order(const char* what, const Named& truth,
                         const std::function<relief::Result(double cell)>& at, double last_bound,
                         const std::map<std::string, double>& least_order = {}) {
  Named last;
  for (const double cell : {0.2, 0.1, 0.05, 0.025}) {
    const Named now = figures(at(cell));
    for (const auto& [name, value] : truth) {
      const double error = std::abs(now.at(name) - value);
      if (last.count(name) != 0 && last[name] > 1e-9) {
        const double order = std::log2(last[name] / error);
        std::printf("%s cell %.3f %s: error %.2e, order %.2f\n", what, cell, name.c_str(), error,
                    order);
        const auto own = least_order.find(name);
        EXPECT_GT(order, own != least_order.end() ? own->second : 1.6)
            << what << " " << name << " at cell " << cell;
      }
      if (cell == 0.025) {
        EXPECT_LT(error, last_bound) << what << " " << name;
      }
      last[name] = error;
    }
  }
}

// Exact integrals over whole periods; E from GNU GSL. A = 0.5 m, L = 4 m.
TEST(ReliefOfASinusoid, ConvergesToItsClosedFormsAtSecondOrder) {
  const double a = 0.5;
  const double k = 2 * kPi / 4.0;
  const double m = a * k;
  const double modulus = std::sqrt(m * m / (1 + m * m));
  const double sdr =
      2 / kPi * std::sqrt(1 + m * m) * gsl_sf_ellint_Ecomp(modulus, GSL_PREC_DOUBLE) - 1;
  EXPECT_NEAR(sdr, 0.1398386644, 1e-10);
  // Centred on a crest: a sine about its node has a least-squares plane that is not level.
  const auto at = [&](double cell) {
    const auto f = [&](double x, double) { return 3.0 + a * std::cos(k * x); };
    return relief::analyse(bare_model(surface({-5, -1}, {5, 4}, cell, f), rectangle(-4, 0, 4, 3)));
  };
  expect_second_order("sinusoid",
                      {{"sa", 2 * a / kPi},
                       {"sq", a / std::sqrt(2.0)},
                       {"sz", 2 * a},
                       {"ssk", 0.0},
                       {"sku", 1.5},
                       {"sdq", m / std::sqrt(2.0)},
                       {"sdr", sdr}},
                      at, 1e-3);
}

TEST(ReliefOfAnEggBox, ConvergesToItsClosedFormsAtSecondOrder) {
  const double a = 0.5;
  const double k = 2 * kPi / 4.0;
  const auto at = [&](double cell) {
    const auto f = [&](double x, double y) { return -7.0 + a * std::cos(k * x) * std::cos(k * y); };
    return relief::analyse(bare_model(surface({-5, -5}, {5, 5}, cell, f), rectangle(-4, -4, 4, 4)));
  };
  expect_second_order("egg box",
                      {{"sa", 4 * a / (kPi * kPi)},
                       {"sq", a / 2},
                       {"sz", 2 * a},
                       {"ssk", 0.0},
                       {"sku", 2.25},
                       {"sdq", a * k / std::sqrt(2.0)},
                       {"sdr", 0.1418581}},  // numeric, to the digits given
                      at, 1e-3);
}

// A cone of height h over a disc of radius R: with ρ the share of the radius (density 2ρ) the
// residual is h(2/3 − ρ); the moments follow. Sdr, Sdq are constant over it. The apex has no
// curvature to speak of: about it the gradient's error is of order cell/r, squared and summed
// cell² ln(R/cell), with a cell² of the other sign; so Sdq and Sdr come to their order late.
TEST(ReliefOfACone, ConvergesToItsClosedForms) {
  const double h = 1.2;
  const double radius = 3.0;
  const auto at = [&](double cell) {
    const auto f = [&](double x, double y) { return h * (1 - std::hypot(x, y) / radius); };
    return relief::analyse(bare_model(surface({-3.4, -3.4}, {3.4, 3.4}, cell, f),
                                      tests::regular_polygon({0, 0}, radius, 4000)));
  };
  const double g = h / radius;
  expect_second_order("cone",
                      {{"sa", 16 * h / 81},
                       {"sq", h / std::sqrt(18.0)},
                       {"sz", h},
                       {"ssk", 2 * std::sqrt(2.0) / 5},
                       {"sku", 2.4},
                       {"sdq", g},
                       {"sdr", std::sqrt(1 + g * g) - 1}},
                      at, 3e-4, {{"sdq", 0.4}, {"sdr", 0.8}});
}

TEST(ReliefOfATiltedPlane, IsNothingAboutItsPlaneWhateverTheOutline) {
  const auto f = [](double x, double y) { return 40.0 + 0.3 * x - 0.4 * y; };
  const geom::Polygon outline{{0.13, 0.2}, {7.7, 0.9}, {4.1, 3.3}, {6.2, 7.4}, {0.4, 6.1}};
  const auto r = relief::analyse(bare_model(surface({-1, -1}, {9, 9}, 0.25, f), outline));
  EXPECT_NEAR(r.sa_m, 0, 1e-12);
  EXPECT_NEAR(r.sq_m, 0, 1e-12);
  EXPECT_NEAR(r.sz_m, 0, 1e-12);
  EXPECT_NEAR(r.sdq, 0, 1e-12);
  EXPECT_NEAR(r.sdr, 0, 1e-12);
  EXPECT_TRUE(std::isnan(r.ssk));
  EXPECT_TRUE(std::isnan(r.sku));
  EXPECT_NEAR(r.plane_slope_deg, std::atan(0.5) / geom::kDegree, 1e-10);
  EXPECT_NEAR(r.plane_downhill_deg, 360 - std::atan2(0.3, 0.4) / geom::kDegree, 1e-9);
  EXPECT_NEAR(r.mean_slope_deg, std::atan(0.5) / geom::kDegree, 1e-4);
  EXPECT_EQ(r.flat_share, 0);
  EXPECT_EQ(r.aspect_entropy, 0);
  EXPECT_TRUE(r.rises.empty());
  EXPECT_TRUE(r.hollows.empty());
  // Highest at (7.7, 0.9), lowest at (0.4, 6.1): corners of the outline between nodes.
  EXPECT_NEAR(r.range_m, 0.3 * 7.3 + 0.4 * 5.2, 1e-12);
}

TEST(ReliefOfALevelGround, IsAllNothingAndFlat) {
  const auto r = relief::analyse(
      bare_model(geom::level_ground({{0, 0}, {5, 5}}, 0.1, 62.0), rectangle(0.5, 0.5, 4.5, 4.5)));
  EXPECT_EQ(r.sa_m, 0);
  EXPECT_EQ(r.range_m, 0);
  EXPECT_EQ(r.flat_share, 1);
  EXPECT_EQ(r.aspect_entropy, 0);
  EXPECT_TRUE(std::isnan(r.plane_downhill_deg));
  EXPECT_TRUE(r.rises.empty());
}

double rough(double x, double y) {
  return 0.3 * std::sin(1.1 * x + 0.3) * std::cos(0.8 * y) + 0.05 * std::sin(5.3 * x * y);
}

// Moments do not care for where the site lies, how high, or which way round its outline runs.
TEST(Relief, IsTheSameShiftedLiftedAndWithTheOutlineReversed) {
  const geom::Polygon outline{{0.13, 0.2}, {7.7, 0.9}, {4.1, 3.3}, {6.2, 7.4}, {0.4, 6.1}};
  const auto base = relief::analyse(bare_model(surface({-1, -1}, {9, 9}, 0.125, rough), outline));
  geom::Polygon moved = outline;
  for (geom::Vec2& p : moved) p = p + geom::Vec2{512, -256};
  std::reverse(moved.begin(), moved.end());
  const auto shifted = relief::analyse(
      bare_model(surface({511, -257}, {521, -247}, 0.125,
                         [](double x, double y) { return 100 + rough(x - 512, y + 256); }),
                 moved));
  const Named a = figures(base);
  for (const auto& [name, value] : figures(shifted))
    EXPECT_NEAR(value, a.at(name), 1e-9 * std::max(1.0, std::abs(value))) << name;
  EXPECT_EQ(shifted.rises.size(), base.rises.size());
  EXPECT_EQ(shifted.hollows.size(), base.hollows.size());
}

// Half a turn keeps the cell's diagonal, so everything must come out the same.
TEST(Relief, IsTheSameAfterHalfATurn) {
  const geom::Polygon outline{{0.13, 0.2}, {7.7, 0.9}, {4.1, 3.3}, {6.2, 7.4}, {0.4, 6.1}};
  geom::Polygon turned;
  for (const geom::Vec2 p : outline) turned.push_back(-p);
  const auto a = relief::analyse(bare_model(surface({-1, -1}, {9, 9}, 0.125, rough), outline));
  const auto b = relief::analyse(bare_model(
      surface({-9, -9}, {1, 1}, 0.125, [](double x, double y) { return rough(-x, -y); }), turned));
  const Named fa = figures(a);
  for (const auto& [name, value] : figures(b)) EXPECT_NEAR(value, fa.at(name), 1e-10) << name;
  EXPECT_NEAR(b.mean_slope_deg, a.mean_slope_deg, 1e-6);
  EXPECT_NEAR(b.vrm_mean, a.vrm_mean, 1e-9);
  EXPECT_NEAR(b.aspect_entropy, a.aspect_entropy, 0.01);
  ASSERT_EQ(b.rises.size(), a.rises.size());
  for (std::size_t k = 0; k < a.rises.size(); ++k)
    EXPECT_NEAR(b.rises[k].prominence_m, a.rises[k].prominence_m, 1e-12);
}

// Two independent ways to cut the ground at the outline: signed fans here, cut triangles there.
TEST(SurfaceMoments, AgreeWithTheSurfaceSumsOfTheHeightfield) {
  const geom::Polygon outline{{0.13, 0.2}, {7.7, 0.9}, {4.1, 3.3}, {6.2, 7.4}, {0.4, 6.1}};
  const auto ground = surface({-1, -1}, {9, 9}, 0.25, rough);
  const auto m = geom::surface_moments(ground, outline);
  const auto sums = geom::surface_sums(ground, outline, 0.0);
  EXPECT_NEAR(m.area_m2, std::abs(geom::signed_area(outline)), 1e-10);
  EXPECT_NEAR(m.area_m2, sums.plan_area_m2, 1e-10);
  EXPECT_NEAR(m.plane.at_centre * m.area_m2, sums.volume_above_m3, 1e-10);
}

TEST(Relief, ConvergesToWholeEvennessOverADome) {
  const auto f = [](double x, double y) { return -0.2 * (x * x + y * y); };
  const auto r = relief::analyse(
      bare_model(surface({-3, -3}, {3, 3}, 0.05, f), tests::regular_polygon({0, 0}, 2.5, 720)));
  EXPECT_NEAR(r.aspect_entropy, 1.0, 1e-3);
  // Flatter than 5° within r = tan 5° / 0.4 of 2.5 m.
  EXPECT_NEAR(r.flat_share, std::pow(std::tan(5 * geom::kDegree) / 0.4 / 2.5, 2), 1e-3);
  ASSERT_EQ(r.rises.size(), 1U);
  // The dome runs out through the outline: short by at most the slope there, 1, times a cell's
  // diagonal, never more.
  EXPECT_LE(r.rises[0].prominence_m, 0.2 * 2.5 * 2.5);
  EXPECT_GE(r.rises[0].prominence_m, 0.2 * 2.5 * 2.5 - 0.05 * std::sqrt(2.0));
}

TEST(Relief, NamesEachFigureOnceInJsonAndBrief) {
  const Model model =
      bare_model(geom::level_ground({{0, 0}, {5, 5}}, 0.5, 2.0), rectangle(0.5, 0.5, 4.5, 4.5));
  const auto r = relief::analyse(model);
  const nlohmann::json json = relief::to_json(r, model);
  Figures all;
  relief::add_figures(r, model, all);
  for (const char* key :
       {"sa_m", "sq_m", "sz_m", "ssk", "sku", "sdq", "sdr", "mean_slope_deg", "tri_mean_m",
        "tpi_sd_m", "roughness_mean_m", "vrm_mean", "flat_share", "range_m"}) {
    EXPECT_TRUE(json.contains(key)) << key;
    EXPECT_EQ(all.count(std::string("relief.") + key), 1U) << key;
  }
  EXPECT_TRUE(json.at("ssk").is_null());
  EXPECT_FALSE(all.at("relief.ssk").value.has_value());
}

}  // namespace
}  // namespace hummock

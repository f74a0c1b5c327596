#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/water/water.h"
#include "engine/water/water_json.h"
#include "tests/support/surfaces.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// Ground from a function over −6..6, boundary −5..5, one water at level 0 over `outline`.
template <class Height>
Model with_water(double cell, const Polygon& outline, Height height) {
  Model model = tests::bare_model(tests::surface({-6, -6}, {6, 6}, cell, height),
                                  tests::rectangle(-5, -5, 5, 5));
  model.site.species = test::test_animal();
  Water w;
  w.name = "pool";
  w.outline = outline;
  w.level = 0.0;
  model.site.waters.push_back(w);
  return model;
}
const water::BasinRow& only(const water::Result& r) {
  return r.basins.at(0);
}

TEST(Basin, AConeIsAThirdOfItsCylinderAndAsSteepAsDrawn) {
  // Radius 2, 0.6 deep: side atan(0.6/2) = 16.70°. The ground goes on rising outside.
  const Model model = with_water(0.05, tests::regular_polygon({}, 2.6, 48),
                                 [](double x, double y) { return 0.3 * std::hypot(x, y) - 0.6; });
  const water::BasinRow b = only(water::analyse(model));
  EXPECT_NEAR(b.volume_m3, geom::kPi * 4.0 * 0.6 / 3.0, 2e-3);
  EXPECT_NEAR(b.area_m2, geom::kPi * 4.0, 5e-3);
  EXPECT_NEAR(b.deepest_m, 0.6, 1e-12);
  EXPECT_NEAR(b.easiest_side_deg, std::atan(0.3) / geom::kDegree, 0.1);
  // Facets of a cone's grid are steeper than the cone by less than the turn of its side in a cell.
  EXPECT_NEAR(b.steepest_side_deg, std::atan(0.3) / geom::kDegree, 0.7);
  EXPECT_TRUE(b.can_climb_out);
  EXPECT_TRUE(b.holds_water);
  EXPECT_FALSE(b.parts_the_yard);
  // Across the middle half the shallowest straight way passes at half the radius: half as deep.
  EXPECT_NEAR(b.wading_route_deepest_m, 0.3, 0.02);
  EXPECT_TRUE(b.deeper_than_wade);
}

TEST(Basin, VolumeOfABowlCutByASquareOutlineIsThatOfTheSquare) {
  // Bed at −1 everywhere, outline 2 × 2 off the grid lines: exactly 4 m² and 4 m³.
  const Model model = with_water(0.1, tests::rectangle(-1.03, -0.97, 0.97, 1.03),
                                 [](double, double) { return -1.0; });
  const water::BasinRow b = only(water::analyse(model));
  EXPECT_NEAR(b.area_m2, 4.0, 1e-6);
  EXPECT_NEAR(b.volume_m3, 4.0, 1e-6);
}

TEST(Basin, SteepSidesHoldTheAnimalUntilOneSideIsARamp) {
  // A square pit 1 m deep, sides 60°, and the same with the west side at 30°.
  const auto pit = [](double west) {
    return [west](double x, double y) {
      const double steep = std::tan(60.0 * geom::kDegree);
      const double in = std::min(
          {(2.0 - x) * steep, (2.0 - y) * steep, (2.0 + y) * steep, (2.0 + x) * std::tan(west)});
      return -std::clamp(in, 0.0, 1.0);
    };
  };
  const Polygon outline = tests::rectangle(-2, -2, 2, 2);
  const water::BasinRow shut =
      only(water::analyse(with_water(0.05, outline, pit(60.0 * geom::kDegree))));
  EXPECT_FALSE(shut.can_climb_out);
  EXPECT_NEAR(shut.easiest_side_deg, 60.0, 0.5);
  const water::BasinRow ramp =
      only(water::analyse(with_water(0.05, outline, pit(30.0 * geom::kDegree))));
  EXPECT_TRUE(ramp.can_climb_out);
  EXPECT_NEAR(ramp.easiest_side_deg, 30.0, 0.5);
  EXPECT_NEAR(ramp.easiest_at.x, -2.0, 0.1);
  // Where two sides meet a facet rises with both: up to atan(√2 tan 60°) = 67.8°.
  EXPECT_GE(ramp.steepest_side_deg, 59.5);
  EXPECT_LE(ramp.steepest_side_deg, 67.8);
}

TEST(Basin, AMoatIsWadedAtItsFord) {
  // A trough along y, 2 m wide and 0.8 m deep, with a sill 0.25 under water at y = 1.
  const Model model = with_water(0.1, tests::rectangle(-1.5, -6, 1.5, 6), [](double x, double y) {
    const double trough = -0.8 * std::clamp((1.0 - std::abs(x)) / 0.5, 0.0, 1.0);
    return std::max(trough, -0.25 - 2.0 * std::abs(y - 1.0)) + (std::abs(x) >= 1.0 ? 0.2 : 0.0);
  });
  const water::BasinRow b = only(water::analyse(model));
  EXPECT_TRUE(b.parts_the_yard);
  EXPECT_NEAR(b.wading_route_deepest_m, 0.25, 1e-9);
  EXPECT_TRUE(b.deeper_than_wade);
}

TEST(Basin, AnIslandIsReachedAtTheRingsShallowestPlace) {
  const Model model = with_water(0.05, tests::rectangle(-4, -4, 4, 4), [](double x, double y) {
    const double ring = std::abs(std::hypot(x, y) - 2.0);  // deepest at 2 m from the middle
    return ring - 0.7 + 0.3 * std::max(0.0, x / std::hypot(x, y + 1e-12));
  });
  const water::BasinRow b = only(water::analyse(model));
  EXPECT_TRUE(b.parts_the_yard);
  // Between nodes the ring's crease is passed half a cell off: 0.025 shallower.
  EXPECT_NEAR(b.wading_route_deepest_m, 0.4, 0.03);  // due east, where the ring is 0.3 higher
}

TEST(Basin, WaterDrawnHigherThanItsRimRunsOut) {
  Model model = with_water(0.1, tests::regular_polygon({}, 2.5, 32), [](double x, double y) {
    return std::min(0.1, 0.3 * std::hypot(x, y) - 0.6);  // the land round it lies at +0.1
  });
  EXPECT_TRUE(only(water::analyse(model)).holds_water);
  EXPECT_NEAR(only(water::analyse(model)).rim_m, 0.1, 1e-12);
  model.site.waters[0].level = 0.2;
  EXPECT_FALSE(only(water::analyse(model)).holds_water);
}

TEST(Basin, ADugPoolOfTheModelHasItsDrawnDepthAndSides) {
  Site site = test::yard(10, 8, 2.0);
  site.ground.cell = 0.05;
  Water pool;
  pool.name = "pool";
  pool.outline = tests::rectangle(3, 2, 7, 5);
  pool.depth = 0.4;
  pool.side_slope = 20.0 * geom::kDegree;
  site.waters.push_back(pool);
  const water::BasinRow b = only(water::analyse(test::built(site)));
  EXPECT_NEAR(b.deepest_m, 0.4, 1e-9);
  EXPECT_NEAR(b.easiest_side_deg, 20.0, 0.5);
  // Frustum: 4 × 3 at the rim, shorter by 2·0.4/tan 20° at the bed.
  const double in = 2.0 * 0.4 / std::tan(20.0 * geom::kDegree);
  const double top = 12.0, bed = (4.0 - in) * (3.0 - in);
  const double mid = (4.0 - in / 2) * (3.0 - in / 2);
  EXPECT_NEAR(b.volume_m3, 0.4 / 6.0 * (top + 4.0 * mid + bed), 0.01);
  EXPECT_TRUE(b.holds_water);
}

TEST(Basin, TurningTheSiteByAQuarterChangesNothing) {
  const auto bed = [](double x, double y) { return 0.2 * x * x + 0.5 * y * y - 0.5; };
  const water::BasinRow a =
      only(water::analyse(with_water(0.1, tests::regular_polygon({}, 3.0, 24), bed)));
  const water::BasinRow b = only(water::analyse(with_water(
      0.1, tests::regular_polygon({}, 3.0, 24), [&](double x, double y) { return bed(y, -x); })));
  EXPECT_NEAR(a.volume_m3, b.volume_m3, 1e-9);
  EXPECT_NEAR(a.wading_route_deepest_m, b.wading_route_deepest_m, 1e-9);
  EXPECT_NEAR(a.easiest_side_deg, b.easiest_side_deg, 0.5);
}

TEST(Basin, JsonAndFiguresSayTheSame) {
  const Model model = with_water(0.1, tests::rectangle(-1, -1, 1, 1),
                                 [](double x, double y) { return 0.3 * std::hypot(x, y) - 0.3; });
  const water::Result r = water::analyse(model);
  const nlohmann::json j = water::to_json(r, model);
  EXPECT_DOUBLE_EQ(j.at("deepest_m").get<double>(), r.deepest_m);
  EXPECT_EQ(j.at("basins").at(0).at("name"), "pool");
  Figures figures;
  water::add_figures(r, model, figures);
  EXPECT_EQ(figures.at("water.deepest_m").value, r.deepest_m);
  EXPECT_EQ(figures.at("water.deepest_m").where, "pool");
  EXPECT_EQ(figures.at("water.climb_out_share").value, 1.0);
}

// The moat runs on beyond the fence on both sides; round its ends it is dry, but outside.
TEST(Basin, AMoatIsNotWadedOutsideTheFence) {
  Model model = with_water(0.1, tests::rectangle(-4, -1, 4, 1), [](double x, double y) {
    return std::abs(x) < 3.5 && std::abs(y) < 0.9 ? -0.45 : 0.1;
  });
  model.outline = tests::rectangle(-3, -5, 3, 5);
  const water::BasinRow b = only(water::analyse(model));
  EXPECT_TRUE(b.parts_the_yard);
  EXPECT_NEAR(b.wading_route_deepest_m, 0.45, 1e-9);
}

}  // namespace
}  // namespace hummock

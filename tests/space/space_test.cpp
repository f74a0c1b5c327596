// Room in yards with closed forms, and the column sums against CGAL's booleans.
#include "engine/space/space.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/space/space_json.h"
#include "geometry/mesh/air_columns.h"
#include "geometry/mesh/boolean_cgal.h"
#include "tests/support/fenced_yard.h"

namespace hummock {
namespace {

using geom::kDegree;
using tests::add_fence;
using tests::add_roof;
using tests::add_solid;
using tests::box;
using tests::rectangle;
using tests::stone;
using tests::surface;

Model yard(geom::Heightfield ground, geom::Polygon outline, double stand_slope_deg = 40) {
  Model model = tests::bare_model(std::move(ground), std::move(outline));
  model.site.species.stand_slope.value = stand_slope_deg * kDegree;
  model.site.species.body.value = {0.4, 0.12, 0.2};
  model.site.species.wade_depth.value = 0.05;
  return model;
}

Model level_yard(double top) {
  Model model = yard(geom::level_ground({{-3, -3}, {15, 12}}, 0.25, 0.0), rectangle(0, 0, 12, 9));
  add_fence(model, 2.0, [&](Vec2) { return top; });
  return model;
}

double rough(double x, double y) {
  return 0.3 * std::sin(1.1 * x + 0.3) * std::cos(0.8 * y) + 0.05 * std::sin(5.3 * x * y);
}

const geom::Polygon kNotched{{0.13, 0.2}, {7.7, 0.9}, {4.1, 3.3}, {6.2, 7.4}, {0.4, 6.1}};

// The closed solid by CGAL has the volume of the column sums.
void expect_both_agree(const Model& model, double tolerance = 1e-9) {
  const auto r = space::analyse(model);
  ASSERT_TRUE(r.volume_known) << r.volume_note;
  std::string note;
  const geom::Mesh air = space::enclosed_air(model, &note);
  ASSERT_TRUE(geom::is_closed(air)) << note;
  EXPECT_NEAR(geom::signed_volume(air), r.volume_m3, tolerance * r.volume_m3);
}

TEST(Space, OfALevelYardIsAreaTimesHeight) {
  const Model model = level_yard(2.44);
  const auto r = space::analyse(model);
  EXPECT_NEAR(r.plan_area_m2, 108, 1e-9);
  EXPECT_NEAR(r.surface_area_m2, 108, 1e-9);
  EXPECT_NEAR(r.usable_area_m2, 108, 1e-9);
  ASSERT_TRUE(r.volume_known) << r.volume_note;
  EXPECT_NEAR(r.volume_m3, 108 * 2.44, 1e-9);
  EXPECT_NEAR(r.least_headroom_m, 2.44, 1e-12);
  EXPECT_NEAR(r.mean_headroom_m, 2.44, 1e-12);
  EXPECT_FALSE(r.roofed);
  EXPECT_NEAR(r.largest_circle.radius, 4.5, 0.006);
  EXPECT_LE(r.largest_circle.radius, 4.5 + 1e-9);
  EXPECT_NEAR(r.boundary_length_m, 42, 1e-12);
  expect_both_agree(model);
}

TEST(Space, OfATiltedYardHasItsSlopedSurface) {
  const auto f = [](double x, double y) { return 0.3 * x - 0.4 * y; };
  Model model = yard(surface({-3, -3}, {15, 12}, 0.25, f), rectangle(0, 0, 12, 9), 27);
  add_fence(model, 2.0, [&](Vec2 p) { return f(p.x, p.y) + 2.0; });
  const auto r = space::analyse(model);
  EXPECT_NEAR(r.surface_area_m2, 108 * std::sqrt(1.25), 1e-9);
  EXPECT_NEAR(r.usable_area_m2, 108, 1e-9) << "26.565° is under 27°";
  EXPECT_NEAR(r.volume_m3, 216, 1e-9);
  EXPECT_NEAR(r.least_headroom_m, 2, 1e-12);
  model.site.species.stand_slope.value = 26 * kDegree;
  EXPECT_EQ(space::analyse(model).usable_area_m2, 0);
  expect_both_agree(model);
}

// A mound h·(1+cos(πd/R))/2 takes π R² h (1/2 − 2/π²) of the air: ∫ by parts.
TEST(Space, LosesWhatAMoundTakesAtSecondOrder) {
  const double h = 0.9;
  const double reach = 2.5;
  const double mound = geom::kPi * reach * reach * h * (0.5 - 2 / (geom::kPi * geom::kPi));
  double last = 0.0;
  for (const double cell : {0.2, 0.1, 0.05}) {
    const auto f = [&](double x, double y) {
      const double d = std::hypot(x - 8, y - 6);
      return d < reach ? h * (1 + std::cos(geom::kPi * d / reach)) / 2 : 0.0;
    };
    Model model = yard(surface({-1, -1}, {13, 10}, cell, f), rectangle(0, 0, 12, 9));
    add_fence(model, 2.0, [](Vec2) { return 2.0; });
    const double error = std::abs(space::analyse(model).volume_m3 - (216 - mound));
    std::printf("cell %.2f: volume error %.2e m³\n", cell, error);
    EXPECT_LT(error, 0.2 * cell * cell);
    last = error;
  }
  EXPECT_LT(last, 1e-3);
}

TEST(Space, TakesOffFurnitureOnceHoweverItOverlaps) {
  Model model = level_yard(2.0);
  add_solid(model, "half buried", box({1, 1, -0.5}, {2, 2, 0.5}));         // 0.5
  add_solid(model, "across it", box({1.5, 1.5, -0.25}, {3, 2.5, 0.25}));   // 0.375 − 0.0625
  add_solid(model, "through the fence", box({-1, 4, 0.5}, {1, 5, 1.0}));   // 0.5
  add_solid(model, "out through the top", box({5, 5, 1.5}, {6, 6, 4.0}));  // 0.5
  add_solid(model, "outside", box({13, 1, 0}, {14, 2, 1}));                // 0
  add_solid(model, "beneath", box({9, 1, -2}, {10, 2, -1}));               // 0
  const auto r = space::analyse(model);
  ASSERT_TRUE(r.volume_known) << r.volume_note;
  EXPECT_NEAR(r.furniture_m3, 0.5 + 0.3125 + 0.5 + 0.5, 1e-12);
  EXPECT_NEAR(r.volume_m3, 216 - r.furniture_m3, 1e-9);
  expect_both_agree(model);
}

TEST(Space, TakesOffAPlatformOnLegsOfItsOwnShells) {
  Model model = level_yard(2.0);
  geom::Mesh platform = box({4, 4, 1.0}, {6, 6, 1.1});
  for (const Vec2 leg : {Vec2{4.1, 4.1}, Vec2{5.8, 4.1}, Vec2{5.8, 5.8}, Vec2{4.1, 5.8}})
    append(platform, box({leg.x, leg.y, -0.3}, {leg.x + 0.1, leg.y + 0.1, 1.0}));
  add_solid(model, "platform", platform);
  tests::commit_scene(model);
  const auto r = space::analyse(model);
  ASSERT_TRUE(r.volume_known) << r.volume_note;
  EXPECT_NEAR(r.furniture_m3, 0.4 + 4 * 0.01, 1e-12);
  // Under the deck 1.0 m is free and the body is 0.2 m high: only the legs' feet are lost, within
  // a cell round each.
  EXPECT_NEAR(r.usable_area_m2, 108 - 0.04, 4 * 0.4 * 0.25);
  expect_both_agree(model);
}

TEST(Space, DoesNotKnowTheVolumeWithAnOpenObject) {
  Model model = level_yard(2.0);
  geom::Mesh ruin = box({1, 1, 0}, {2, 2, 1});
  ruin.triangles.pop_back();
  add_solid(model, "ruin", ruin).closed = false;
  const auto r = space::analyse(model);
  EXPECT_FALSE(r.volume_known);
  EXPECT_NE(r.volume_note.find("'ruin'"), std::string::npos);
  EXPECT_TRUE(space::to_json(r, model).at("volume_m3").is_null());
  std::string note;
  EXPECT_TRUE(space::enclosed_air(model, &note).empty());
  EXPECT_NE(note.find("'ruin'"), std::string::npos);
}

TEST(Space, KnowsNoAirWithoutAFence) {
  const auto r =
      space::analyse(yard(geom::level_ground({{-1, -1}, {5, 5}}, 0.5, 0.0), rectangle(0, 0, 4, 4)));
  EXPECT_FALSE(r.volume_known);
  EXPECT_TRUE(std::isnan(r.least_headroom_m));
}

// A pyramid roof over the yard: its own height, not the fence's.
geom::Mesh pyramid(const geom::Polygon& ring, double eaves, Vec3 top) {
  geom::Mesh out;
  for (const Vec2 p : ring) out.vertices.push_back(geom::at_height(p, eaves));
  out.vertices.push_back(top);
  const auto n = static_cast<std::uint32_t>(ring.size());
  for (std::uint32_t k = 0; k < n; ++k) out.triangles.push_back({k, (k + 1) % n, n});
  return out;
}

TEST(Space, UnderAWholeRoofGoesUpToIt) {
  Model model = level_yard(2.0);
  add_roof(model, pyramid(rectangle(0, 0, 12, 9), 3.0, {6, 4.5, 2.4}));  // sagging
  const auto r = space::analyse(model);
  EXPECT_TRUE(r.roofed);
  EXPECT_NEAR(r.roofed_share, 1, 1e-12);
  EXPECT_NEAR(r.volume_m3, 108 * (3.0 - 0.2), 1e-9);
  EXPECT_NEAR(r.least_headroom_m, 2.4, 1e-12);
  EXPECT_NEAR(r.mean_headroom_m, 2.8, 1e-12);
  expect_both_agree(model);
}

TEST(Space, UnderARoofWiderThanTheYardStopsAtItsEdge) {
  Model model = level_yard(2.0);
  add_roof(model, geom::flat_sheet(rectangle(-1, -2, 13, 10), 3.0));
  EXPECT_NEAR(space::analyse(model).volume_m3, 324, 1e-9);
  expect_both_agree(model);
}

TEST(Space, UnderAPartRoofStepsDownToTheFenceTops) {
  Model model = level_yard(2.0);
  add_roof(model, geom::flat_sheet(rectangle(-1, -1, 4, 10), 3.0));
  const auto r = space::analyse(model);
  EXPECT_NEAR(r.roofed_share, 1.0 / 3, 1e-12);
  EXPECT_NEAR(r.volume_m3, 36 * 3 + 72 * 2, 1e-9);
  EXPECT_NEAR(r.least_headroom_m, 2, 1e-12);
  expect_both_agree(model);
}

TEST(Space, CountsNoAirWhereTheGroundStandsAboveTheFenceTops) {
  const auto f = [](double x, double y) {
    return std::max(0.0, 3.0 - std::hypot(x - 6, y - 4.5));  // a cone, 1 m of it above the tops
  };
  Model model = yard(surface({-3, -3}, {15, 12}, 0.125, f), rectangle(0, 0, 12, 9));
  add_fence(model, 2.0, [](Vec2) { return 2.0; });
  const auto r = space::analyse(model);
  EXPECT_NEAR(r.least_headroom_m, -1, 1e-12);
  EXPECT_NEAR(r.volume_m3, 216 - (9 * geom::kPi - geom::kPi / 3), 0.05);
  EXPECT_FALSE(r.volume_note.empty());
  expect_both_agree(model);
}

// No closed form: rough ground, a notched outline off the grid, a fence that follows the ground,
// stones that overlap, sink in and lean out. Column sums and CGAL know nothing of one another.
TEST(Space, ByColumnsEqualsTheBooleanOnRoughGround) {
  for (unsigned seed = 1; seed <= 4; ++seed) {
    SCOPED_TRACE(testing::Message() << "seed " << seed);
    std::mt19937 random(seed);
    const auto in = [&](double lo, double hi) {
      return std::uniform_real_distribution<double>(lo, hi)(random);
    };
    Model model = yard(surface({-1, -1}, {9, 9}, 0.25, rough), kNotched);
    add_fence(model, 1.3, [&](Vec2 p) { return geom::height_at(model.ground, p) + 2.0; });
    for (int k = 0; k < 5; ++k)
      add_solid(model, "stone " + std::to_string(k),
                stone({in(0, 7), in(0, 7), in(-0.3, 1.8)}, in(0.3, 0.9), in(-0.2, 0.2), 7));
    expect_both_agree(model);
  }
}

// Past failure: a hillside whose ground stands above the skin through the fence tops (found on the
// open elevation data), with posts that rounding leaves a hair off their edge. The step from the
// ground to the furniture used to hand a rounded result back as an operand, which was refused.
TEST(Space, ByColumnsEqualsTheBooleanOnAHillWithFurniture) {
  const auto f = [](double x, double y) {
    return 40 + 3 * std::exp(-0.6 * (x - 2.2) * (x - 2.2) - 0.5 * (y - 4.5) * (y - 4.5)) +
           0.1 * rough(x, y);
  };
  Model model = yard(surface({-2, -2}, {10, 10}, 0.25, f), kNotched);
  add_fence(model, 0.7, [&](Vec2 p) { return geom::height_at(model.ground, p) + 1.1; });
  add_solid(model, "stone", stone({1.5, 1.5, 41}, 0.5, 0.2, 8));
  add_solid(model, "summit", stone({2.2, 4.5, 43}, 0.5, 0.2, 8));
  EXPECT_LT(space::analyse(model).least_headroom_m, 0);
  expect_both_agree(model);
}

TEST(AirColumns, TakeTheWholeOfAFloatingSolid) {
  const auto ground = surface({-1, -1}, {9, 9}, 0.25, rough);
  const geom::Mesh sheet = geom::flat_sheet(rectangle(0, 0, 8, 8), 5.0);
  const geom::Mesh s = stone({4, 4, 2.5}, 1.0, 0.3, 9);
  EXPECT_NEAR(geom::volume_in_air(ground, sheet, s), geom::signed_volume(s), 1e-12);
  EXPECT_EQ(geom::volume_in_air(ground, sheet, stone({4, 4, -3}, 1.0, 0.3, 9)), 0.0);
}

TEST(Space, IsUsableNeitherInSolidsNorUnderLowOnesNorInDensOrDeepWater) {
  Model model = level_yard(2.0);
  add_solid(model, "box", box({1, 1, -0.25}, {2, 2, 1}));          // 1
  add_solid(model, "low shelf", box({4, 1, 0.15}, {6, 2, 0.3}));   // 2: body 0.2 m high
  add_solid(model, "high shelf", box({4, 4, 0.25}, {6, 5, 0.3}));  // free beneath
  Den den;
  den.at = {9, 2};
  den.size = {1, 0.5, 0.5};
  den.turn = 90 * kDegree;
  model.site.dens.push_back(den);  // 0.5
  Water water;
  water.outline = rectangle(8, 5, 10, 7);
  model.site.waters.push_back(water);
  Part part;
  part.kind = PartKind::water;
  part.source = 0;
  part.blocks_body = false;
  part.mesh = geom::flat_sheet(water.outline, 0.04);  // shallower than it wades
  model.parts.push_back(part);
  tests::commit_scene(model);
  // Obstacle edges on grid lines: exact but for triangles whose middle is judged.
  EXPECT_NEAR(space::analyse(model).usable_area_m2, 108 - 3.5, 1e-6);
  model.parts.back().mesh = geom::flat_sheet(water.outline, 0.06);
  EXPECT_NEAR(space::analyse(model).usable_area_m2, 108 - 3.5 - 4, 1e-6);
}

TEST(Space, SharesTheBoundaryWithGuestsOnceEach) {
  Model model = level_yard(2.0);
  model.site.boundary.sections.front().edges = {1, 2, 3};
  Section glass;
  glass.edges = {0};
  glass.guest_view = true;
  model.site.boundary.sections.push_back(glass);  // 12 m
  Viewing inside_glass;
  inside_glass.edge = 0;
  inside_glass.from = 2;
  inside_glass.width = 3;
  Viewing a;
  a.edge = 1;
  a.from = 1;
  a.width = 2;
  Viewing b;
  b.edge = 1;
  b.from = 2;
  b.width = 3;  // 1..5 with a: 4 m
  model.site.viewings = {inside_glass, a, b};
  EXPECT_NEAR(space::analyse(model).guest_view_share, (12.0 + 4.0) / 42.0, 1e-12);
}

TEST(Space, NamesItsKeys) {
  const Model model = level_yard(2.0);
  const auto r = space::analyse(model);
  const nlohmann::json json = space::to_json(r, model);
  Figures all;
  space::add_figures(r, model, all);
  for (const char* key : {"plan_area_m2", "surface_area_m2", "usable_area_m2", "volume_m3",
                          "least_headroom_m", "guest_view_share"}) {
    EXPECT_TRUE(json.contains(key)) << key;
    EXPECT_EQ(all.count(std::string("space.") + key), 1U) << key;
  }
}

// The largest circle beside a house touches the walls at x 8 and y 8 and the corner (4, 4):
// √2 (4 − r) = r.
TEST(Space, TheLargestCircleLiesBesideTheHouse) {
  Model model = yard(geom::level_ground({{-1, -1}, {9, 9}}, 0.1, 0.0), rectangle(0, 0, 8, 8));
  House hut;
  hut.outline = rectangle(1.5, 1.5, 4, 4);
  model.site.houses.push_back(hut);
  const auto r = space::analyse(model);
  EXPECT_NEAR(r.largest_circle.radius, 8 - 4 * std::sqrt(2.0), 0.02);
  EXPECT_NEAR(r.outdoor_area_m2, 64 - 6.25, 1e-9);
  EXPECT_NEAR(r.usable_area_m2, 64 - 6.25, 1.0);
  EXPECT_NEAR(r.largest_rectangle.area(), 8 * 4, 1.0);
  const geom::RectangleInside& box = r.largest_rectangle;
  EXPECT_GT(std::max(box.centre.x, box.centre.y), 5.5);
}

}  // namespace
}  // namespace hummock

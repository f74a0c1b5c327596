// What the ground is made of and where it may be dug: closed forms of level yards whose outlines
// run along the lattice, so that areas are exact.
#include "engine/surfaces/surfaces.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/model/soil_over_rock.h"
#include "engine/surfaces/surfaces_json.h"
#include "tests/surfaces/small_yards.h"

namespace hummock {
namespace {

using test::add_surface;
using test::rectangle;
using test::row_of;

constexpr double kExact = 1e-9;

TEST(Surfaces, ALaterOneLiesOverAnEarlierAndTheRestIsUnsaid) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {4, 4}), 0.5);
  add_surface(site, Material::loam, rectangle({2.5, 1}, {4, 4}), 1.0);
  const surfaces::Result r = surfaces::analyse(test::built(site));
  EXPECT_NEAR(r.ground_m2, 80.0, kExact);
  EXPECT_NEAR(row_of(r, Material::sand).area_m2, 4.5, kExact);
  EXPECT_NEAR(row_of(r, Material::loam).area_m2, 4.5, kExact);
  EXPECT_NEAR(row_of(r, Material::sand).share, 4.5 / 80.0, kExact);
  EXPECT_NEAR(r.unsaid_m2, 71.0, kExact);
  EXPECT_EQ(row_of(r, Material::rock).area_m2, 0.0);
  std::swap(site.surfaces[0], site.surfaces[1]);
  const surfaces::Result other = surfaces::analyse(test::built(site));
  EXPECT_NEAR(row_of(other, Material::sand).area_m2, 9.0, kExact);
  EXPECT_EQ(row_of(other, Material::loam).area_m2, 0.0);
}

// A box and a hut of 1 m² and 2 m² take theirs off; a platform takes only its legs' (0 to 0.2 m²).
TEST(Surfaces, WhatStandsOnASurfaceTakesItsFootprintOff) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::gravel, rectangle({1, 1}, {7, 7}));
  test::add_box(site, "crate", {2.5, 2.5}, {1.0, 1.0, 0.5});
  test::add_hut(site, rectangle({4, 4}, {5, 6}), 2.0);
  const surfaces::Result r = surfaces::analyse(test::built(site));
  EXPECT_NEAR(row_of(r, Material::gravel).area_m2, 33.0, kExact);
  EXPECT_NEAR(r.ground_m2, 77.0, kExact);
  test::add_platform(site, "shelf", {2.0, 5.5}, {1.0, 1.0, 0.6});
  const surfaces::Result shaded = surfaces::analyse(test::built(site));
  EXPECT_LE(row_of(shaded, Material::gravel).area_m2, 33.0);
  EXPECT_GE(row_of(shaded, Material::gravel).area_m2, 32.8);
}

TEST(Surfaces, WhatLiesOutsideTheBoundaryIsNotCounted) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::rock, rectangle({-1, 6}, {3, 9}));
  EXPECT_NEAR(row_of(surfaces::analyse(test::built(site)), Material::rock).area_m2, 6.0, kExact);
}

// 4 m² of 0.5 m and 12 m² of 0.2 m: mean (2 + 2.4) / 16.
TEST(Surfaces, DepthIsTheLeastAndTheMeanByArea) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {3, 3}), 0.5);
  add_surface(site, Material::sand, rectangle({4, 1}, {8, 4}), 0.2);
  const surfaces::Result r = surfaces::analyse(test::built(site));
  EXPECT_NEAR(*row_of(r, Material::sand).least_m, 0.2, kExact);
  EXPECT_NEAR(*row_of(r, Material::sand).mean_m, 0.275, kExact);
  add_surface(site, Material::sand, rectangle({1, 5}, {2, 6}));
  const surfaces::Result unsaid = surfaces::analyse(test::built(site));
  EXPECT_FALSE(row_of(unsaid, Material::sand).least_m) << "one does not say its depth";
  EXPECT_FALSE(row_of(unsaid, Material::sand).mean_m);
  EXPECT_NEAR(row_of(unsaid, Material::sand).depth_unsaid_m2, 1.0, kExact);
}

// The animal digs 0.9 m. Of 4 m² each only loam of 1 m is as deep; turf is never counted.
TEST(Surfaces, GroundToDigInIsASoftMaterialAsDeepAsIsAsked) {
  Site site = test::yard(12, 9, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {3, 3}), 0.3);
  add_surface(site, Material::loam, rectangle({4, 1}, {6, 3}), 1.0);
  add_surface(site, Material::litter, rectangle({7, 1}, {9, 3}), 0.15);
  add_surface(site, Material::soil, rectangle({1, 5}, {3, 7}));
  add_surface(site, Material::turf, rectangle({4, 5}, {6, 7}), 2.0);
  add_surface(site, Material::gravel, rectangle({7, 5}, {9, 7}), 2.0);
  const surfaces::Result r = surfaces::analyse(test::built(site));
  EXPECT_NEAR(r.dig.area_m2, 4.0, kExact);
  EXPECT_NEAR(r.digs[0].area_m2, 12.0, kExact);
  EXPECT_NEAR(r.digs[1].area_m2, 8.0, kExact);
  EXPECT_NEAR(r.digs[2].area_m2, 4.0, kExact);
  EXPECT_NEAR(r.digs[3].area_m2, 4.0, kExact);
  EXPECT_NEAR(*r.digs[0].least_m, 0.15, kExact);
  EXPECT_NEAR(*r.digs[0].mean_m, (0.3 + 1.0 + 0.15) / 3.0, kExact);
  site.species.dig_depth.value = 0.0;
  EXPECT_NEAR(surfaces::analyse(test::built(site)).dig.area_m2, 12.0, kExact)
      << "any depth that is said; not the soil's, which is not";
}

// The whole yard is loam. Each yard hides 4 m² of it, or all of it, from digging; the rim of what
// hides it may cost a cell.
TEST(Surfaces, NoneIsDugUnderWaterOrWhereTheAnimalDoesNotLive) {
  Site plain = test::yard(10, 8, 2.0);
  add_surface(plain, Material::loam, rectangle({0, 0}, {10, 8}), 1.0);
  const double all = surfaces::analyse(test::built(plain)).dig.area_m2;
  EXPECT_NEAR(all, 80.0, kExact);

  Site wet = plain;
  Water pool;
  pool.name = "pool";
  pool.outline = rectangle({4, 3}, {6, 5});
  pool.level = 0.02;  // waded, and still no ground to dig in
  wet.waters.push_back(pool);
  const surfaces::Result r = surfaces::analyse(test::built(wet));
  EXPECT_NEAR(r.dig.area_m2, 76.0, kExact);
  EXPECT_NEAR(row_of(r, Material::loam).area_m2, 80.0, kExact) << "the bed is loam all the same";

  Site steep = plain;
  test::add_slope(steep, {5, 4}, 45.0 * geom::kDegree, 0.0);
  EXPECT_EQ(surfaces::analyse(test::built(steep)).dig.area_m2, 0.0) << "it stands on 40 degrees";

  // A moat it does not cross: 3.5 m of the north is not its own.
  Site cut = plain;
  pool.outline = rectangle({-0.5, 2}, {10.5, 4.5});
  pool.level = 1.0;
  cut.waters.push_back(pool);
  test::add_box(cut, "stone", {5.0, 7.0}, {1.0, 1.0, 0.3});
  cut.leap_start = Vec2{5.0, 1.0};
  EXPECT_NEAR(surfaces::analyse(test::built(cut)).dig.area_m2, 20.0, 10.0 * 0.1);
}

TEST(Surfaces, NothingIsDeeperThanTheSoilOverRock) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {3, 3}), 1.2);
  site.ground.soil_depth = 0.7;
  const Model model = test::built(site);
  EXPECT_NEAR(*soil_over_rock(model, {2, 2}), 0.7, kExact);
  const surfaces::Result r = surfaces::analyse(model);
  EXPECT_NEAR(*row_of(r, Material::sand).least_m, 0.7, kExact);
  EXPECT_NEAR(*r.layers[0].rock_m, 0.7, kExact);
  EXPECT_EQ(r.dig.area_m2, 0.0) << "it digs 0.9 m";
  EXPECT_NEAR(r.digs[2].area_m2, 4.0, kExact);
  FindingList list;
  surfaces::add_findings(r, model, list);
  ASSERT_EQ(list.size(), 1U);
  EXPECT_NE(list[0].text.find("1.20 m deep where rock or liner lies 0.700 m down"),
            std::string::npos)
      << list[0].text;
  site.surfaces[0].depth = 0.7;
  EXPECT_FALSE(surfaces::analyse(test::built(site)).layers[0].rock_m);
}

// An apron 1 m wide, 0.15 m down, leaves 8 × 6 m to dig deeper; a footing 0.4 m wide 0.2 m at its
// rim, with nothing over it.
TEST(Surfaces, NoneIsDugThroughAnApronOrAFooting) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::loam, rectangle({0, 0}, {10, 8}), 1.0);
  site.boundary.sections[0].apron = Apron{1.0, 0.15, Side::inside};
  const surfaces::Result apron = surfaces::analyse(test::built(site));
  EXPECT_NEAR(apron.digs[0].area_m2, 80.0, kExact);
  EXPECT_NEAR(*apron.digs[0].least_m, 0.15, 1e-4);
  EXPECT_NEAR(apron.dig.area_m2, 48.0, kExact);
  EXPECT_NEAR(*row_of(apron, Material::loam).least_m, 1.0, kExact) << "the loam goes on under it";
  site.boundary.sections[0].apron->side = Side::outside;
  EXPECT_NEAR(surfaces::analyse(test::built(site)).dig.area_m2, 80.0, kExact);
  site.boundary.sections[0].apron.reset();
  site.boundary.sections[0].footing = Footing{0.5, 0.4};
  EXPECT_NEAR(surfaces::analyse(test::built(site)).digs[0].area_m2, 9.6 * 7.6, kExact);
}

TEST(Surfaces, WhatIsHiddenOrHasNoDepthIsPointedOut) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::rock, rectangle({1, 1}, {3, 3}));
  add_surface(site, Material::sand, rectangle({1, 1}, {3, 3}));
  const Model model = test::built(site);
  FindingList list;
  surfaces::add_findings(surfaces::analyse(model), model, list);
  ASSERT_EQ(list.size(), 2U);
  EXPECT_EQ(list[0].thing, "surface 1");
  EXPECT_NE(list[0].text.find("nowhere uppermost"), std::string::npos);
  EXPECT_EQ(list[1].thing, "surface 2");
  EXPECT_NE(list[1].text.find("does not say how deep"), std::string::npos);
}

TEST(Surfaces, GroundDrainsWhereItIsSaid) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::gravel, rectangle({1, 1}, {3, 3})).drains = true;
  add_surface(site, Material::gravel, rectangle({2, 1}, {3, 3}));
  EXPECT_NEAR(surfaces::analyse(test::built(site)).drained_m2, 2.0, kExact);
}

// The map tells what the figures do: nodes of the pit hold its depth.
TEST(Surfaces, TheMapHoldsTheDepthToDig) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {3, 3}), 0.4);
  const Model model = test::built(site);
  const surfaces::Result r = surfaces::analyse(model);
  const geom::Grid& g = r.to_dig.grid;
  const auto at = [&](double x, double y) {
    return r.to_dig.at(static_cast<int>(std::lround((x - g.x0) / g.cell)),
                       static_cast<int>(std::lround((y - g.y0) / g.cell)));
  };
  EXPECT_FLOAT_EQ(at(2, 2), 0.4F);
  EXPECT_FLOAT_EQ(at(5, 5), 0.0F);
  EXPECT_TRUE(std::isnan(at(-1, 5)));
}

}  // namespace
}  // namespace hummock

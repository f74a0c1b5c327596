// Every figure of surfaces as a requirement: met and short; what is not said is never met; and the
// lines a slip in the file gets.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "engine/check/check.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/maps/map_layers.h"
#include "engine/surfaces/surfaces_json.h"
#include "tests/support/figure_rows.h"
#include "tests/support/slips.h"
#include "tests/surfaces/small_yards.h"

namespace hummock {
namespace {

using test::add_planting;
using test::add_surface;
using test::asked;
using test::rectangle;

std::vector<BriefRow> brief_of(Site site, std::vector<Requirement> rows) {
  site.requirements = std::move(rows);
  CheckOptions options;
  options.only = {"surfaces"};
  return run_check(test::built(site), options).brief;
}

// All ground is said: a strip of 1.5 m of every material with its depth; plants over all of it.
Site all_said() {
  Site site = test::yard(12, 8, 2.0);
  for (std::size_t m = 0; m < surfaces::kMaterials; ++m) {
    const double x = 1.5 * static_cast<double>(m);
    add_surface(site, static_cast<Material>(m), rectangle({x, 0}, {x + 1.5, 8}),
                1.0 + 0.1 * static_cast<double>(m))
        .drains = m % 2 == 0;
  }
  for (int k = 1; k < 6; ++k) {
    Planting& p = add_planting(site, rectangle({2.0 * k - 1.0, 1}, {2.0 * k, 7}), 2.6, 0.4);
    p.kind = static_cast<PlantKind>(k);
    p.leaf = k % 2 == 0 ? Leaf::needle : Leaf::broad;
    p.evergreen = k % 2 == 0;
    if (k == 3) p.bare = Season{{11, 1}, {4, 1}};
  }
  return site;
}

TEST(SurfacesJudged, EveryFigureIsMetAndShort) {
  const Site site = all_said();
  const Model model = test::built(site);
  Figures figures;
  surfaces::add_figures(surfaces::analyse(model), model, figures);
  test::each_is_met_and_short(figures, surfaces::figure_rows(), [&](std::vector<Requirement> rows) {
    return brief_of(site, std::move(rows));
  });
  for (const FigureInfo& f : surfaces::figure_rows())
    EXPECT_TRUE(figures.at(f.key).value.value_or(0.0) > 0.0 ||
                f.key.find("unsaid") != std::string::npos)
        << f.key;
}

// 9 m² of sand are said, and nothing of the other 71: at least 9 is met, no upper limit is, and
// neither is more sand, for nobody knows.
TEST(SurfacesJudged, WhatIsNotSaidIsNeverMet) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {4, 4}), 0.5);
  const auto brief =
      brief_of(site, {asked("surfaces.sand_m2", 8.9), asked("surfaces.sand_m2", 9.1),
                      asked("surfaces.concrete_share", {}, 0.1), asked("surfaces.loam_m2", {}, 8.0),
                      asked("surfaces.concrete_least_depth_m", 0.0),
                      asked("surfaces.cover_share", {}, 1.0)});
  EXPECT_EQ(brief[0].met, Met::met);
  EXPECT_EQ(brief[1].met, Met::not_checked);
  EXPECT_NE(brief[1].note.find("71.0 m² of the ground are in no"), std::string::npos)
      << brief[1].note;
  EXPECT_EQ(brief[2].met, Met::not_checked);
  EXPECT_EQ(brief[3].met, Met::not_checked);
  EXPECT_EQ(brief_of(site, {asked("surfaces.sand_m2", {}, 8.0)})[0].met, Met::short_of);
  EXPECT_EQ(brief[4].met, Met::not_checked) << "there is no concrete";
  EXPECT_EQ(brief[5].met, Met::not_checked) << "no planting is drawn";
}

TEST(SurfacesJudged, ASiteWithoutSurfacesMeetsNothing) {
  const Site site = test::yard(10, 8, 2.0);
  const auto brief =
      brief_of(site, {asked("surfaces.concrete_m2", {}, 1.0), asked("surfaces.sand_m2", 0.0),
                      asked("surfaces.diggable_15_cm_m2", 1.0),
                      asked("surfaces.diggable_15_cm_m2", {}, 1.0)});
  for (const BriefRow& row : brief) EXPECT_EQ(row.met, Met::not_checked) << row.what;
}

// Where all ground is said, so is where it is not to be dug; sand of no depth leaves that open, and
// a planting of no kind what grows.
TEST(SurfacesJudged, AnUpperLimitIsMetOnlyWhereAllIsSaid) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::concrete, rectangle({0, 0}, {10, 8}));
  const Requirement none = asked("surfaces.diggable_15_cm_m2", {}, 0.0);
  EXPECT_EQ(brief_of(site, {none})[0].met, Met::met);
  add_surface(site, Material::sand, rectangle({1, 1}, {2, 2}));
  EXPECT_EQ(brief_of(site, {none})[0].met, Met::not_checked);
  site.surfaces.back().depth = 0.1;
  EXPECT_EQ(brief_of(site, {none})[0].met, Met::met);

  const Requirement no_reed = asked("surfaces.reed_m2", {}, 0.0);
  add_planting(site, rectangle({4, 4}, {6, 6}), 1.0, 0.5);
  EXPECT_EQ(brief_of(site, {no_reed})[0].met, Met::not_checked);
  site.plantings.back().kind = PlantKind::grass;
  EXPECT_EQ(brief_of(site, {no_reed})[0].met, Met::met);
}

// What the animal may not do is named: a slope it may not stand on, a depth it may dig beyond.
TEST(SurfacesJudged, ADoubtAboutTheBodyIsNamed) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({0, 0}, {10, 8}), 1.0);
  test::add_slope(site, {5, 4}, 30.0 * geom::kDegree, 0.0);
  site.species.stand_slope.careful = 20.0 * geom::kDegree;
  site.species.dig_depth.source = "a trial, invented for the test";
  site.species.dig_depth.evidence = "trial";
  const auto slope = brief_of(site, {asked("surfaces.diggable_m2", 70.0)});
  EXPECT_EQ(slope[0].standing, Standing::met_if);
  ASSERT_EQ(slope[0].ifs.size(), 1U);
  EXPECT_EQ(slope[0].ifs[0].key, "stand_slope");

  Site flat = test::yard(10, 8, 2.0);
  add_surface(flat, Material::sand, rectangle({0, 0}, {10, 8}), 1.0);
  flat.species.dig_depth.careful = 1.1;
  const auto depth = brief_of(flat, {asked("surfaces.diggable_m2", 70.0)});
  EXPECT_EQ(depth[0].standing, Standing::met_if);
  ASSERT_EQ(depth[0].ifs.size(), 1U);
  EXPECT_EQ(depth[0].ifs[0].key, "dig_depth");
  flat.species.dig_depth.careful = 0.95;
  EXPECT_EQ(brief_of(flat, {asked("surfaces.diggable_m2", 70.0)})[0].standing, Standing::met);
}

// By its line in the list alone: JSON, findings, map.
TEST(SurfacesJudged, IsShownByTheListOfAnalyses) {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, rectangle({1, 1}, {4, 4}));
  const Model model = test::built(site);
  CheckOptions options;
  options.only = {"surfaces"};
  const CheckResults results = run_check(model, options);
  const auto json = to_json(results, model).at("surfaces");
  EXPECT_NEAR(json.at("materials").at("sand").at("area_m2").get<double>(), 9.0, 1e-9);
  EXPECT_TRUE(json.at("materials").at("sand").at("least_depth_m").is_null());
  EXPECT_EQ(json.at("layers").at(0).at("material"), "sand");
  bool told = false;
  for (const Finding& f : findings(model, results)) told = told || f.analysis == "surfaces";
  EXPECT_TRUE(told);
  EXPECT_EQ(maps::compute(model, "to-dig", {}).grid.size(), model.ground.grid.size());
}

TEST(SurfacesRead, ASlipGetsItsLine) {
  const std::string head = "[[surface]]\noutline = [[1, 1], [2, 1], [2, 2]]\n";
  tests::each_gets_its_line(
      {tests::Slip{head, "surface[0].material", "nothing", "\"sand\", \"soil\""},
       tests::Slip{head + "material = \"mud\"\n", "surface[0].material", "\"mud\"", "\"concrete\""},
       tests::Slip{head + "material = \"sand\"\ndepth = 0\n", "surface[0].depth", "0", "above 0"},
       tests::Slip{head + "material = \"sand\"\ndrains = 1\n", "surface[0].drains", "1",
                   "true or false"},
       tests::Slip{head + "material = \"sand\"\nname = \"bridge\"\n", "surface[0].name",
                   "\"bridge\"", "a name of its own"},
       tests::Slip{"[[surface]]\nmaterial = \"sand\"\noutline = [[1, 1], [90, 1], [2, 2]]\n",
                   "surface[0].outline", "(90, 1)", "inside the outline or within its margin"},
       tests::Slip{"[[planting]]\noutline = [[1, 1], [2, 1], [2, 2]]\nheight = 1\ncover = 0.5\n"
                   "evergreen = true\nbare = [\"11-01\", \"04-01\"]\n",
                   "planting[1].evergreen", "true beside a bare season", "one of evergreen"},
       tests::Slip{"[[planting]]\noutline = [[1, 1], [2, 1], [2, 2]]\nheight = 1\ncover = 0.5\n"
                   "kind = \"moss\"\n",
                   "planting[1].kind", "\"moss\"", "\"climber\""}});
  EXPECT_EQ(tests::line_of(head + "material = \"sand\"\ndepth = 0.4\ndrains = true\n"), "taken");
}

}  // namespace
}  // namespace hummock

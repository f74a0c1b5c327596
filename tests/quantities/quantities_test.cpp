#include "engine/quantities/quantities.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/quantities/quantities_json.h"
#include "tests/support/surfaces.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

double sum(const Model& model, const std::string& key) {
  Figures figures;
  quantities::add_figures(quantities::schedule(model), model, figures);
  const auto it = figures.find("quantities." + key);
  return it == figures.end() ? 0.0 : it->second.value.value_or(0.0);
}

TEST(Quantities, APlainYardIsItsPerimeterItsPostsAndItsMesh) {
  const Model model = test::built(test::yard(10, 8, 2.4));  // 2 m panels
  EXPECT_NEAR(sum(model, "fence_m"), 36.0, 1e-9);
  EXPECT_EQ(sum(model, "post_count"), 18.0);
  EXPECT_NEAR(sum(model, "mesh_m2"), 36.0 * 2.4, 1e-6);
  EXPECT_EQ(sum(model, "glass_m2"), 0.0);
}

TEST(Quantities, AGateTakesItsWidthOffTheFence) {
  Site site = test::yard(10, 8, 2.4, SheetKind::solid);
  Gate& gate = test::add_gate(site, 0, 3.0, 1.2, 2.0);
  gate.vestibule = Vestibule{1.5, true, true, true};
  const Model model = test::built(site);
  EXPECT_NEAR(sum(model, "fence_m"), 36.0 - 1.2, 1e-9);
  EXPECT_EQ(sum(model, "gate_count"), 2.0);
  // The wall over the gate stays wall.
  EXPECT_NEAR(sum(model, "wall_m2"), 36.0 * 2.4 - 1.2 * 2.0, 1e-6);
}

TEST(Quantities, WhatLiesBelowTheFenceIsMeasured) {
  Site site = test::yard(10, 8, 2.4);
  Section& s = site.boundary.sections[0];
  s.buried = 0.6;
  s.footing = Footing{0.5, 0.2};
  s.overhang = Overhang{0.9, 40.0 * geom::kDegree};
  s.apron = Apron{0.9, 0.15, Side::outside};
  const Model model = test::built(site);
  EXPECT_NEAR(sum(model, "buried_m2"), 36.0 * 0.6, 1e-6);
  EXPECT_NEAR(sum(model, "overhang_m"), 36.0, 1e-9);
  // Mitred at four corners: the inclined strip on a rectangle loses one square of its plan width.
  const double plan = 0.9 * std::cos(40.0 * geom::kDegree);
  EXPECT_NEAR(sum(model, "overhang_m2"), (36.0 - 4.0 * plan) * 0.9, 1e-6);
  EXPECT_NEAR(sum(model, "apron_m2"), (36.0 + 4.0 * 0.9) * 0.9, 0.05);
  // Strip of 0.2 m round the outline's line: corners shared or doubled, at most 4 · 0.2².
  EXPECT_NEAR(sum(model, "footing_m3"), 36.0 * 0.2 * 0.5, 4.0 * 0.2 * 0.2 * 0.5 + 1e-6);
}

TEST(Quantities, EarthWaterAndPlantingAreClosedForms) {
  Site site = test::yard(12, 10, 2.0);
  test::add_mound(site, {3, 5}, 2.0, 0.8);
  Planting grass;
  grass.name = "grass";
  grass.outline = {{8, 8}, {8, 9}, {10, 9}, {10, 8}};
  grass.height = 0.5;
  grass.cover = 0.6;
  site.plantings.push_back(grass);
  Water pool;
  pool.name = "pool";
  pool.outline = tests::rectangle(7, 2, 11, 5);
  pool.depth = 0.3;
  pool.side_slope = 45.0 * geom::kDegree;
  site.waters.push_back(pool);
  const Model model = test::built(site);
  const double mound = 0.8 * 4.0 * (geom::kPi / 2.0 - 2.0 / geom::kPi);
  EXPECT_NEAR(sum(model, "fill_m3"), mound, 2e-3 * mound);
  const double frustum = 0.3 / 6.0 * (12.0 + 4.0 * 3.7 * 2.7 + 3.4 * 2.4);
  EXPECT_NEAR(sum(model, "water_m3"), frustum, 0.02);
  EXPECT_NEAR(sum(model, "cut_m3"), sum(model, "water_m3"), 1e-6);  // dug from level ground
  EXPECT_NEAR(sum(model, "take_away_m3") + sum(model, "bring_in_m3"),
              std::abs(sum(model, "cut_m3") - sum(model, "fill_m3")), 1e-9);
  EXPECT_NEAR(sum(model, "planting_m2"), 2.0, 1e-12);
}

TEST(Quantities, StonesAreWeighedByTheirOwnVolumeAndCountedBySize) {
  Site site = test::yard(12, 10, 2.0);
  test::add_boulder(site, "small", {3, 3}, {0.4, 0.4, 0.3}, 1);
  test::add_boulder(site, "middling", {5, 5}, {0.9, 0.8, 0.6}, 2);
  test::add_boulder(site, "large", {8, 6}, {1.8, 1.4, 1.0}, 3);
  const Model model = test::built(site);
  double volume = 0.0;
  for (const int p : model.object_part)
    volume += geom::signed_volume(model.parts[static_cast<std::size_t>(p)].mesh);
  EXPECT_NEAR(sum(model, "stone_t"), volume * 2.65, 1e-9);
  // A stone fills less than its box and more than a third of it.
  EXPECT_LT(volume, 0.4 * 0.4 * 0.3 + 0.9 * 0.8 * 0.6 + 1.8 * 1.4 * 1.0);
  EXPECT_GT(volume, (0.4 * 0.4 * 0.3 + 0.9 * 0.8 * 0.6 + 1.8 * 1.4 * 1.0) / 3.0);
  EXPECT_EQ(sum(model, "stone_count"), 3.0);
  int classes = 0;
  for (const quantities::Row& r : quantities::schedule(model)) classes += r.key == "stone_count";
  EXPECT_EQ(classes, 3);
}

TEST(Quantities, FurnitureIsListed) {
  Site site = test::yard(12, 10, 2.0);
  test::add_log(site, "trunk", {3, 3}, 2.0, 0.3);
  test::add_tree(site, "birch", {6, 6}, 2.0, {1.5, 1.5, 2.0}, 1.5);
  test::add_platform(site, "deck", {9, 3}, {1.2, 0.8, 0.6});
  Den den;
  den.name = "box";
  den.at = {2, 8};
  den.size = {0.9, 0.6, 0.5};
  den.opening = 0.2;
  site.dens.push_back(den);
  Burrow burrow;
  burrow.name = "burrow";
  burrow.mouth = {5, 8};
  burrow.path = {{5, 9}, {6, 9}};
  burrow.depth = 0.6;
  site.burrows.push_back(burrow);
  const Model model = test::built(site);
  // A round bar as a polygon of 16 sides: its area is 16/2 sin(2π/16) r².
  EXPECT_NEAR(sum(model, "log_m3"), 2.0 * 8.0 * std::sin(geom::kPi / 8.0) * 0.15 * 0.15, 0.01);
  EXPECT_EQ(sum(model, "tree_count"), 1.0);
  EXPECT_NEAR(sum(model, "platform_m2"), 0.96, 1e-12);
  EXPECT_EQ(sum(model, "den_count"), 1.0);
  EXPECT_NEAR(sum(model, "burrow_m"), 2.0, 1e-12);
}

TEST(Quantities, CsvIsQuotedWhereItMustBeAndReadsBack) {
  const std::vector<quantities::Row> rows{
      {"fence, \"old\"", "south\nrun", 12.34567, "m", "", "fence_m"},
      {"posts", "south run", 7.0, "no.", "a note", "post_count"}};
  EXPECT_EQ(quantities::to_csv(rows),
            "item,where,amount,unit,note\r\n"
            "\"fence, \"\"old\"\"\",\"south\nrun\",12.346,m,\r\n"
            "posts,south run,7,no.,a note\r\n");
}

TEST(Quantities, JsonHasEveryRow) {
  const Model model = test::built(test::yard(10, 8, 2.4, SheetKind::glass));
  const auto rows = quantities::schedule(model);
  const nlohmann::json j = quantities::to_json(rows, model);
  ASSERT_EQ(j.size(), rows.size());
  for (std::size_t k = 0; k < rows.size(); ++k) {
    EXPECT_EQ(j.at(k).at("item"), rows[k].item);
    EXPECT_DOUBLE_EQ(j.at(k).at("amount").get<double>(), rows[k].amount);
    EXPECT_TRUE(std::isfinite(rows[k].amount));
  }
}

using Words = std::vector<std::string>;

// Nothing where the figure has no value.
std::optional<Words> words(const Site& site, const std::string& key) {
  const Model model = test::built(site);
  Figures figures;
  quantities::add_figures(quantities::schedule(model), model, figures);
  return figures.at("quantities." + key).words;
}

TEST(Kinds, OfTheFenceAreThoseOfItsSectionsBandsCapsAndOverhangs) {
  Site site = test::yard(10, 8, 2.4);
  EXPECT_EQ(words(site, "fence_kinds"), Words{"mesh"});
  test::split_sections(site);
  site.boundary.sections[0].kind = SheetKind::glass;
  EXPECT_EQ(words(site, "fence_kinds"), (Words{"glass", "mesh"}));
  site.boundary.sections[1].bands = {{0.0, 0.5, SheetKind::solid, 0.0, 0.003, ""}};
  EXPECT_EQ(words(site, "fence_kinds"), (Words{"glass", "mesh", "solid"}));
  Site capped = test::yard(10, 8, 2.4);
  capped.boundary.sections[0].cap = 0.4;
  EXPECT_EQ(words(capped, "fence_kinds"), (Words{"mesh", "solid"}));
  Site hung = test::yard(10, 8, 2.4, SheetKind::mesh);
  hung.boundary.sections[0].overhang = Overhang{0.6, 0.7, Profile::straight, SheetKind::solid};
  EXPECT_EQ(words(hung, "fence_kinds"), (Words{"mesh", "solid"}));
}

TEST(Kinds, OfTheRoofHaveOpenAmongThemUnlessItCoversTheYard) {
  Site site = test::yard(10, 8, 2.4);
  EXPECT_EQ(words(site, "roof_kinds"), Words{"open"});
  Roof roof;
  roof.height = 2.6;
  roof.aperture = 0.02;
  site.roof = roof;
  EXPECT_EQ(words(site, "roof_kinds"), Words{"mesh"});
  const auto with = [&](const geom::Polygon& outline) {
    Site own = site;
    own.roof->outline = outline;
    return words(own, "roof_kinds");
  };
  EXPECT_EQ(with({{0, 0}, {10, 0}, {10, 8}, {0, 8}}), Words{"mesh"});
  EXPECT_EQ(with({{0, 0}, {5, 0}, {5, 8}, {0, 8}}), (Words{"mesh", "open"}));
  // A notch that reaches the middle of an edge, and one beside it: open, and not known.
  EXPECT_EQ(with({{0, 0}, {4, 0}, {5, 3}, {6, 0}, {10, 0}, {10, 8}, {0, 8}}),
            (Words{"mesh", "open"}));
  EXPECT_EQ(with({{0, 0}, {1, 0}, {2, 3}, {3, 0}, {10, 0}, {10, 8}, {0, 8}}), std::nullopt);
}

TEST(Kinds, OfSoilThatIsNotSaidHaveNoValue) {
  Site site = test::yard(10, 8, 2.4);
  site.ground.soil = Soil::unknown;
  EXPECT_EQ(words(site, "soil"), std::nullopt);
  site.ground.soil = Soil::clay;
  EXPECT_EQ(words(site, "soil"), Words{"clay"});
}

}  // namespace
}  // namespace hummock

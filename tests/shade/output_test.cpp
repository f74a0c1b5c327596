// Shade in JSON, the brief's figures, and tables.
#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>

#include "engine/shade/day/shade_csv.h"
#include "engine/shade/shade_json.h"
#include "tests/shade/yards.h"

namespace hummock::shade {
namespace {

Day day_with_bands(Model& m) {
  m.origin = {1000.0, 2000.0};
  add_solid(m, "flat \"sunning\" rock, big", box_mesh({1, 1, 0}, {2, 2, 0.4}));
  Settings settings;
  settings.step_minutes = 60;
  settings.keep_bands = true;
  return analyse(m, settings);
}

TEST(ShadeOutput, json_has_the_keys_of_the_contract_in_site_coordinates) {
  Model m = yard(0, 0, 4, 4, 0.5);
  const Day day = day_with_bands(m);
  const nlohmann::json j = to_json(day, m);
  EXPECT_EQ(j["date"], "2026-06-21");
  EXPECT_EQ(j["times"].size(), j["shaded_share"].size());
  EXPECT_EQ(j["times"].size(), j["shaded_m2_per_animal"].size());
  for (const char* key : {"min", "mean", "max"}) EXPECT_TRUE(j["sun_hours"][key].is_number());
  EXPECT_GE(j["sunniest"]["at"][0].get<double>(), 1000.0);
  EXPECT_GE(j["coolest"]["at"][1].get<double>(), 2000.0);
  EXPECT_NEAR(j["objects"][0]["at"][2].get<double>(), 0.4, 1e-12);
}

TEST(ShadeOutput, figures_are_those_of_the_day) {
  Model m = yard(0, 0, 4, 4, 0.5);
  const Day day = day_with_bands(m);
  Figures figures;
  add_figures(day, m, figures);
  EXPECT_EQ(figures.at("shade.sun_hours_max").value, day.sun_hours_max);
  EXPECT_EQ(figures.at("shade.hottest_shade_m2_per_animal").value, day.hottest_shade_m2_per_animal);
  EXPECT_NE(figures.at("shade.sun_hours_max").where.find("(100"), std::string::npos);
}

TEST(ShadeOutput, tables_have_a_row_for_each_time_and_cell) {
  Model m = yard(0, 0, 4, 4, 0.5);
  const Day day = day_with_bands(m);
  const auto lines = [](const std::string& s) { return std::count(s.begin(), s.end(), '\n'); };
  const auto columns = [](const std::string& s) {
    return std::count(s.begin(), s.begin() + static_cast<long>(s.find('\n')), ',') + 1;
  };
  EXPECT_EQ(lines(times_csv(day, m)), static_cast<long>(day.times.size()) + 1);
  const std::string cells = cells_csv(day, m);
  EXPECT_EQ(lines(cells), 81 - 9 + 1);  // nine nodes lie under the rock
  EXPECT_EQ(columns(cells), 8 + static_cast<long>(day.hour_of_clock.size()));
  EXPECT_NE(objects_csv(day, m).find("\"flat \"\"sunning\"\" rock, big\",1001.000"),
            std::string::npos);
}

// Silence about the land round about is said; what tells of it is named.
TEST(ShadeOutput, says_when_nothing_tells_of_hills) {
  Model m = yard(0, 0, 4, 4, 0.5);
  const Day day = analyse(m, {});
  const auto said = [&] {
    FindingList list;
    add_findings(day, m, list);
    return list;
  };
  ASSERT_EQ(said().size(), 1U);
  EXPECT_EQ(said().front().weight, Severity::look);
  EXPECT_TRUE(to_json(day, m)["hills_from"].empty());
  m.beyond = std::make_shared<geom::Heightfield>(m.ground);
  EXPECT_TRUE(said().empty());
  EXPECT_EQ(to_json(day, m)["hills_from"][0], "ground.raster");
  m.beyond.reset();
  m.site.place->horizon = {{0.0, 0.1}};
  EXPECT_TRUE(said().empty());
  EXPECT_EQ(to_json(day, m)["hills_from"][0], "place.horizon");
}

}  // namespace
}  // namespace hummock::shade

// Shade in JSON, the brief's figures, and tables.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <nlohmann/json.hpp>
#include <random>

#include "engine/base/four_digits.h"
#include "engine/shade/day/lying_places.h"
#include "engine/shade/day/shade_csv.h"
#include "engine/shade/shade_json.h"
#include "geometry/plan/polygon.h"
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

// More rows than are made at once, some without a place.
TEST(DayTables, cells_stand_row_by_row) {
  const Model m = yard(0, 0, 4, 4, 0.5);
  const geom::Grid grid{0.0, 0.0, 0.1, 3, 300};
  std::mt19937 engine(3);
  std::uniform_real_distribution<float> any(-2.0F, 20.0F);
  Day day;
  const std::vector<geom::Raster*> layers{&day.sun_hours,          &day.longest_shade_h,
                                          &day.midday_shade_share, &day.irradiation_kwh_m2,
                                          &day.direct_kwh_m2,      &day.sky_view};
  for (geom::Raster* r : layers) {
    *r = geom::Raster(grid);
    // Many places have what the one before has.
    float last = 0.0F;
    for (float& v : r->values) v = last = engine() % 3 == 0 ? any(engine) : last;
  }
  day.sky_view.values[8] = day.sky_view.values[11] = std::numeric_limits<float>::quiet_NaN();
  day.direct_kwh_m2.values[9] = -1.234e-5F;
  for (std::size_t n = 0; n < 450; ++n)
    day.sun_hours.values[2 * n] = std::numeric_limits<float>::quiet_NaN();
  std::string plain;
  for (int j = 0; j < grid.ny; ++j)
    for (int i = 0; i < grid.nx; ++i) {
      if (std::isnan(day.sun_hours.at(i, j))) continue;
      const Vec2 at = m.to_site(grid.node(i, j));
      plain += fmt::format("{:.3f},{:.3f}", at.x, at.y);
      for (const geom::Raster* r : layers) {
        plain += ',';
        append_four_digits(plain, r->at(i, j));
      }
      plain += '\n';
    }
  const std::string table = cells_csv(day, m);
  EXPECT_EQ(table.substr(table.find('\n') + 1), plain);
}

// The first, row by row, of those farthest from the outline within the tie.
Vec2 farthest_of_best(const Model& m, const geom::Raster& by, double sign, double tie) {
  const LyingPlaces lying = lying_places(m, by.grid);
  const auto places = [&](const auto& work) {
    for (int j = 0; j < by.grid.ny; ++j)
      for (int i = 0; i < by.grid.nx; ++i)
        if (lying.node[by.grid.index(i, j)] != 0 && !std::isnan(by.at(i, j)))
          work(sign * by.at(i, j), by.grid.node(i, j));
  };
  double best = -1e300, off = -1.0;
  places([&](double value, Vec2) { best = std::max(best, value); });
  Vec2 spot;
  places([&](double value, Vec2 at) {
    const double d = distance_to_edges(m.outline, at);
    if (value < best - tie || d <= off) return;
    off = d;
    spot = at;
  });
  return spot;
}

TEST(DayTables, extremes_are_the_first_of_those_farthest_from_the_fence) {
  std::mt19937 engine(8);
  std::uniform_real_distribution<> in(-1.0, 1.0);
  for (int turn = 0; turn < 4; ++turn) {
    const double x = in(engine), y = in(engine);
    const Model m = yard(0, 0, 6, 5, 0.25, [&](double a, double b) {
      return 0.4 * std::sin(x * a) * std::sin(y * b);
    });
    Settings settings;
    settings.step_minutes = 60.0;
    const Day day = analyse(m, settings);
    EXPECT_EQ(day.sunniest.at, farthest_of_best(m, day.sun_hours, 1.0, 0.01)) << turn;
    EXPECT_EQ(day.coolest.at, farthest_of_best(m, day.irradiation_kwh_m2, -1.0, 0.001)) << turn;
  }
}

}  // namespace
}  // namespace hummock::shade

#include "engine/houses/houses.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/houses/houses_json.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

Model with_house() {
  Model model = tests::bare_model(geom::level_ground({{0, 0}, {10, 10}}, 0.5, 0.0),
                                  tests::rectangle(0, 0, 10, 10));
  Species& s = model.site.species;
  s.body.value = {0.5, 0.15, 0.3};
  s.least_opening.value = 0.06;
  s.outdoor_low.emplace();
  s.outdoor_low->value = 5.0;
  House house;
  house.name = "night house";
  house.outline = {{1, 1}, {1, 4}, {5, 4}, {5, 1}};  // clockwise on purpose
  house.height = 2.5;
  house.temperature = {{8.0, 24.0}};
  house.door = WallOpening{"hatch", 0, 0.5, 0.4, 0.5, 0.0, 0.0};
  house.vents = {{"ridge vent", 1, 0.5, 0.4, 0.2, 2.0, 0.012}};
  house.hides = 3;
  house.climb_places = 2;
  model.site.houses.push_back(house);
  return model;
}

TEST(Houses, ARectangularHouseHasItsFloorAndVolume) {
  const houses::Result r = houses::analyse(with_house());
  ASSERT_EQ(r.list.size(), 1U);
  EXPECT_DOUBLE_EQ(r.list[0].floor_m2, 12.0);
  EXPECT_DOUBLE_EQ(r.list[0].volume_m3, 30.0);
  EXPECT_DOUBLE_EQ(r.floor_m2, 12.0);
  EXPECT_EQ(r.hides, 3);
  EXPECT_TRUE(r.list[0].vents_guarded);
  EXPECT_TRUE(r.list[0].faults.empty()) << r.list[0].faults[0];
  EXPECT_FALSE(r.hours_below_low.has_value());
}

TEST(Houses, AVentAsWideAsTheHeadIsAFaultAndOneAHairNarrowerIsNot) {
  Model model = with_house();
  model.site.houses[0].vents[0].aperture = 0.0599;
  EXPECT_TRUE(houses::analyse(model).list[0].vents_guarded);
  model.site.houses[0].vents[0].aperture = 0.06;
  const houses::Result grille = houses::analyse(model);
  EXPECT_FALSE(grille.list[0].vents_guarded);
  ASSERT_EQ(grille.list[0].faults.size(), 1U);
  EXPECT_NE(grille.list[0].faults[0].find("ridge vent"), std::string::npos);
  model.site.houses[0].vents[0] = {"slot", 1, 0.5, 0.4, 0.05, 2.0, 0.0};  // open but low
  EXPECT_TRUE(houses::analyse(model).list[0].vents_guarded);
}

TEST(Houses, ADoorSmallerThanTheBodyOrNoneIsAFault) {
  Model model = with_house();
  model.site.houses[0].door->height = 0.29;
  EXPECT_EQ(houses::analyse(model).list[0].faults.size(), 1U);
  model.site.houses[0].door.reset();
  EXPECT_EQ(houses::analyse(model).list[0].faults.size(), 1U);
}

TEST(Houses, AHouseColderThanTheAnimalsLimitIsAFault) {
  Model model = with_house();
  model.site.houses[0].temperature = {{4.0, 20.0}};
  EXPECT_EQ(houses::analyse(model).list[0].faults.size(), 1U);
}

TEST(Houses, HoursStrictlyBelowTheLimitAreCounted) {
  // A year of a cosine between −5 and 15 °C: below 5 for exactly half of it.
  std::vector<houses::ClimateHour> year;
  year.reserve(8760);
  for (int h = 0; h < 8760; ++h)
    year.push_back({"", 5.0 - 10.0 * std::cos(2.0 * geom::kPi * (h + 0.5) / 8760.0)});
  const houses::Result r = houses::analyse(with_house(), year);
  EXPECT_EQ(r.hours_below_low, 4380.0);
  EXPECT_EQ(r.climate_hours, 8760U);
  EXPECT_NEAR(*r.coldest_c, -5.0, 1e-6);
  EXPECT_EQ(houses::analyse(with_house(), {{"", 5.0}, {"", 4.999}}).hours_below_low, 1.0);
}

class ClimateFile : public ::testing::Test {
 protected:
  std::filesystem::path write(const std::string& text) {
    path_ = std::filesystem::temp_directory_path() /
            (std::string("hummock_climate_") +
             ::testing::UnitTest::GetInstance()->current_test_info()->name() + ".csv");
    std::ofstream(path_, std::ios::binary) << text;
    return path_;
  }
  void TearDown() override { std::filesystem::remove(path_); }
  // The line an error names, and what was found there.
  std::string refused(const std::string& text) {
    try {
      houses::read_climate(write(text));
    } catch (const InputError& e) {
      return std::to_string(e.where().line) + ": " + e.found();
    }
    return "accepted";
  }
  std::filesystem::path path_;
};

TEST_F(ClimateFile, ReadsColumnsByNameThroughWindowsEndsQuotesAndBlankLines) {
  const auto rows = houses::read_climate(
      write("\xEF\xBB\xBFwind,\"temperature\",time\r\n3,-1.5,2023-01-01 00:00\r\n\r\n"
            "2, 0.25 ,\"2023-01-01T01:00\"\r\n"));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].time, "2023-01-01 00:00");
  EXPECT_EQ(rows[0].temperature_c, -1.5);
  EXPECT_EQ(rows[1].temperature_c, 0.25);
}

TEST_F(ClimateFile, BadFilesAreRefusedWithTheirLine) {
  EXPECT_EQ(refused("time,temp\n0,1\n"), "1: the header \"time,temp\"");
  EXPECT_EQ(refused(""), "1: the header \"\"");
  EXPECT_EQ(refused("time,temperature\n"), "0: no rows");
  EXPECT_EQ(refused("time,temperature\n0,1\n1\n"), "3: 1 fields");
  EXPECT_EQ(refused("time,temperature\n0,1\n1,warm\n"), "3: \"warm\"");
  EXPECT_EQ(refused("time,temperature\n0,1\n1,nan\n"), "3: \"nan\"");
  EXPECT_EQ(refused("time,temperature\n0,280.15\n"), "2: \"280.15\"");  // kelvin
  EXPECT_EQ(refused("time,temperature\n0,1.5x\n"), "2: \"1.5x\"");
  EXPECT_EQ(refused("time,temperature\n2023-02-28 23:45,1\n2023-03-01 00:15,1\n"),
            "3: 2023-03-01 00:15 after 2023-02-28 23:45");
}

TEST_F(ClimateFile, ATypicalYearMayJumpBackBetweenItsMonths) {
  EXPECT_EQ(refused("time,temperature\n2019-01-31 23:00,1\n2007-02-01 00:00,1\n"), "accepted");
  EXPECT_THROW(houses::read_climate("/nonexistent/climate.csv"), InputError);
}

TEST(Houses, JsonAndFiguresSayTheSameAndNothingKnownIsNull) {
  const Model model = with_house();
  const houses::Result r = houses::analyse(model);
  const nlohmann::json j = houses::to_json(r, model);
  EXPECT_TRUE(j.at("hours_below_low").is_null());
  EXPECT_EQ(j.at("list").at(0).at("name"), "night house");
  Figures figures;
  houses::add_figures(r, model, figures);
  EXPECT_EQ(figures.at("houses.floor_m2").value, 12.0);
  EXPECT_EQ(figures.at("houses.low_c").value, 8.0);
  EXPECT_EQ(figures.at("houses.low_c").where, "night house");
}

TEST_F(ClimateFile, ThatIsNoYearOfHoursIsRefusedUntilAccepted) {
  std::string text = "time,temperature\n";
  for (int day = 1; day <= 6; ++day)
    for (int hour = 0; hour < 24; hour += 6)
      text += fmt::format("2023-01-{:02} {:02}:00,{}\n", day, hour, hour == 0 ? -20 : 5);
  Model model = with_house();
  model.site.climate = write(text);
  const auto said = [&] {
    try {
      houses::climate_of(model.site);
    } catch (const InputError& e) {
      return std::string(e.what());
    }
    return std::string();
  };
  EXPECT_NE(said().find("rows 6 hours apart"), std::string::npos) << said();
  model.site.accept = {"climate-step"};
  EXPECT_NE(said().find("144 hours"), std::string::npos) << said();
  model.site.accept = {"climate-step", "climate-year"};
  // One row of four is below the limit, each stands for six hours.
  EXPECT_EQ(houses::analyse(model, houses::climate_of(model.site)).hours_below_low, 36.0);
  model.site.climate = write("time,temperature\nnoon,1\n");
  EXPECT_NE(said().find("climate-times"), std::string::npos) << said();
}

}  // namespace
}  // namespace hummock

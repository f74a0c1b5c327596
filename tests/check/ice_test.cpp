// Frozen waters: what the place or the climate file says, and what the leaping animal makes of it.
#include "engine/check/ice.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "engine/leap/rows/rests_on.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Site with_water() {
  Site site = test::yard(10, 4, 1.5, SheetKind::solid);
  site.species.swims->source = "seen by its keeper";  // that it does not is no doubt here
  site.species.swims->evidence.clear();
  Water moat;
  moat.name = "moat";
  moat.outline = {{4, 0}, {7, 0}, {7, 4}, {4, 4}};
  moat.level = 0.3;
  site.waters.push_back(moat);
  return site;
}

// A year of hours at 5 °C, of which `cold` are at `low`.
std::filesystem::path climate(int cold, double low) {
  auto file =
      std::filesystem::temp_directory_path() / ("hummock-ice-" + std::to_string(cold) + ".csv");
  std::ofstream out(file);
  out << "time,temperature\n";
  const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int hour = 0;
  for (int month = 0; month < 12; ++month) {
    for (int day = 1; day <= days[month]; ++day) {
      for (int h = 0; h < 24; ++h, ++hour) {
        char line[64];
        std::snprintf(line, sizeof line, "2025-%02d-%02d %02d:00,%g\n", month + 1, day, h,
                      hour < cold ? low : 5.0);
        out << line;
      }
    }
  }
  return file;
}

TEST(Ice, IsAskedOnlyOfWater) {
  EXPECT_EQ(ice_on(test::yard(5, 4, 1.0)), leap::Ice::none);
}

TEST(Ice, ThePlacesOwnWordGoesFirst) {
  Site site = with_water();
  EXPECT_EQ(ice_on(site), leap::Ice::unknown);
  site.place.emplace();
  EXPECT_EQ(ice_on(site), leap::Ice::unknown);
  site.place->freezes = true;
  EXPECT_EQ(ice_on(site), leap::Ice::bears);
  site.place->freezes = false;
  EXPECT_EQ(ice_on(site), leap::Ice::none);
}

// Stefan: 20 mm need (20/35)² = 0.327 degree-days: at −2 °C four hours, not three.
TEST(Ice, TheClimateFileTellsByItsDegreeDaysOfFrost) {
  Site site = with_water();
  for (const auto& [hours, ice] : {std::pair{0, leap::Ice::none}, std::pair{3, leap::Ice::none},
                                   std::pair{4, leap::Ice::bears}}) {
    site.climate = climate(hours, -2.0);
    EXPECT_EQ(ice_on(site), ice) << hours;
    std::filesystem::remove(site.climate);
  }
}

// A low east wall behind the moat: open water holds what does not swim, ice does not.
TEST(Ice, IsAWalkToTheFarShore) {
  Site site = with_water();
  test::split_sections(site);
  site.boundary.sections[1].height = 0.2;
  site.leap_start = Vec2{2, 2};
  site.species.dig_depth.value = site.species.dig_length.value = 0.0;  // under the bed
  const Model model = test::built(site);
  const auto least = [](const leap::Result& r) {
    return r.escape_leap_m.value_or(r.bounded_below_m);
  };
  leap::Settings settings;
  settings.ice = leap::Ice::none;
  EXPECT_GT(least(leap::analyse(model, settings)), 1.0);
  EXPECT_TRUE(leap::what_it_rests_on(model, settings, leap::analyse(model, settings)).list.empty());
  settings.ice = leap::Ice::bears;
  EXPECT_NEAR(least(leap::analyse(model, settings)), 0.2, 0.03);
}

TEST(Ice, OfWhichNobodySaysStandsAsAnIf) {
  Site site = with_water();
  test::split_sections(site);
  site.boundary.sections[1].height = 0.2;
  site.leap_start = Vec2{2, 2};
  site.species.dig_depth.value = site.species.dig_length.value = 0.0;  // under the bed
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "a trial";
  site.species.leap_distance.evidence = "trial";
  site.species.leap_distance.source = "a trial";
  const Model model = test::built(site);
  const leap::Settings settings;
  const leap::Result found = leap::analyse(model, settings);
  const RestsOn rests = leap::what_it_rests_on(model, settings, found);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "ice");
}

}  // namespace
}  // namespace hummock

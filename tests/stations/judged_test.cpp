// Every figure of stations as a requirement: met and short; and the lines a slip in the file gets.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "engine/check/check.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/stations/stations_json.h"
#include "tests/stations/small_yards.h"
#include "tests/support/figure_rows.h"
#include "tests/support/slips.h"

namespace hummock {
namespace {

using test::add_station;
using test::asked;

CheckResults checked(const Model& model) {
  CheckOptions options;
  options.only = {"stations"};
  return run_check(model, options);
}
std::vector<BriefRow> brief_of(Site site, std::vector<Requirement> rows) {
  site.requirements = std::move(rows);
  return checked(test::built(site)).brief;
}

// Two of every kind that the animal comes to, one more outside the fence, and guests.
Site with_all() {
  Site site = test::yard(20, 8, 2.0);
  site.animals = 2;
  test::add_viewing(site, 0, 0.0, 20.0);
  for (std::size_t k = 0; k < stations::kKinds; ++k) {
    const auto kind = static_cast<StationKind>(k);
    const double z = kind == StationKind::heat_lamp ? 0.8 : 0.0;
    add_station(site, kind, Vec2{2.0 + 2.0 * static_cast<double>(k), 0.6}, "", z);
    add_station(site, kind, Vec2{2.0 + 2.0 * static_cast<double>(k), 5.0}, "", z);
  }
  add_station(site, StationKind::enrichment, Vec2{5, 9});
  return site;
}

TEST(StationsJudged, EveryFigureIsMetAndShort) {
  const Site site = with_all();
  const Model model = test::built(site);
  Figures figures;
  stations::add_figures(stations::analyse(model), model, figures);
  test::each_is_met_and_short(figures, stations::figure_rows(), [&](std::vector<Requirement> rows) {
    return brief_of(site, std::move(rows));
  });
  for (const FigureInfo& f : stations::figure_rows())
    EXPECT_GT(figures.at(f.key).value.value_or(0.0), 0.0) << f.key;
}

// 1.5 bowls for each of two.
TEST(StationsJudged, ThreeBowlsForAPair) {
  Requirement each = asked("stations.food_count", 1.5);
  each.per = Per::animal;
  Site site = test::yard(10, 8, 2.0);
  site.animals = 2;
  EXPECT_EQ(brief_of(site, {each})[0].met, Met::short_of) << "none is set out";
  add_station(site, StationKind::food, Vec2{2, 2});
  add_station(site, StationKind::food, Vec2{5, 2});
  EXPECT_EQ(brief_of(site, {each})[0].met, Met::short_of);
  add_station(site, StationKind::food, Vec2{8, 2});
  EXPECT_EQ(brief_of(site, {each})[0].met, Met::met);
  EXPECT_EQ(brief_of(site, {asked("stations.food_per_animal", 1.5)})[0].met, Met::met);
}

TEST(StationsJudged, WhatIsNotThereIsNeverMet) {
  Site site = test::yard(10, 8, 2.0);
  add_station(site, StationKind::food, Vec2{2, 2});
  const auto brief =
      brief_of(site, {asked("stations.lamp_clearance_m", 0.0), asked("stations.food_apart_m", 0.0),
                      asked("stations.food_to_water_m", 0.0), asked("stations.to_guests_m", 1.0),
                      asked("stations.unguarded_lamps_in_leap_count", {}, 0.0),
                      asked("stations.in_guests_reach_count", {}, 0.0)});
  EXPECT_EQ(brief[0].met, Met::not_checked);
  EXPECT_EQ(brief[1].met, Met::not_checked);
  EXPECT_EQ(brief[2].met, Met::not_checked);
  EXPECT_EQ(brief[3].met, Met::not_checked) << "nobody says where guests stand";
  EXPECT_EQ(brief[4].met, Met::not_checked);
  EXPECT_EQ(brief[5].met, Met::not_checked);
}

TEST(StationsJudged, IsShownByTheListOfAnalyses) {
  Site site = with_all();
  test::add_box(site, "crate", {18.0, 6.0}, {0.5, 0.5, 0.4});
  add_station(site, StationKind::food, Vec2{18.0, 6.0});
  add_station(site, StationKind::food, Vec2{10.0, 7.0}, "crate");
  const Model model = test::built(site);
  const CheckResults results = checked(model);
  const auto json = to_json(results, model).at("stations");
  EXPECT_EQ(json.at("stations").size(), site.stations.size());
  EXPECT_EQ(json.at("kinds").at("food").at("counts"), 2);
  std::string told;
  for (const Finding& f : findings(model, results))
    if (f.analysis == "stations") told += f.text + "\n";
  for (const char* words :
       {"is not come to", "lies in 'crate'", "is said to be on 'crate'",
        "m of it without a leap, and may leap at it", "0.600 m from where guests"})
    EXPECT_NE(told.find(words), std::string::npos) << words << "\n" << told;
}

TEST(StationsRead, ASlipGetsItsLine) {
  const std::string lamp = "[[station]]\nkind = \"heat lamp\"\n";
  tests::each_gets_its_line(
      {tests::Slip{lamp, "station[0].at", "neither at nor on", "the name of an object or den"},
       tests::Slip{"[[station]]\nat = [2, 2]\n", "station[0].kind", "nothing", "\"food\""},
       tests::Slip{"[[station]]\nat = [2, 2]\nkind = \"bowl\"\n", "station[0].kind", "\"bowl\"",
                   "\"water bowl\""},
       tests::Slip{lamp + "on = \"new oak\"\n", "station[0].on", "\"new oak\"", "an object or den"},
       tests::Slip{lamp + "on = \"bridge\"\n", "station[0].on", "\"bridge\"", "an object or den"},
       tests::Slip{lamp + "at = [90, 2]\n", "station[0].at", "(90, 2)", "within its margin"},
       tests::Slip{lamp + "at = [2, 2]\nz = -1\n", "station[0].z", "-1", "from 0 to 30 (m)"},
       tests::Slip{lamp + "at = [2, 2]\nreach = 9\n", "station[0].reach", "9", "from 0 to 5 (m)"},
       tests::Slip{"[[station]]\nkind = \"food\"\nat = [2, 2]\nguard = true\n", "station[0].guard",
                   "a key that a station that is no heat lamp does not have", ""},
       tests::Slip{lamp + "at = [2, 2]\ngard = true\n", "station[0].gard", "unknown key",
                   "\"guard\" (did you mean that?)"},
       tests::Slip{lamp + "at = [2, 2]\nname = \"bridge\"\n", "station[0].name", "\"bridge\"",
                   "a name of its own"}});
  EXPECT_EQ(tests::line_of(lamp + "on = \"split boulder\"\nz = 1.2\nguard = true\n"), "taken");
}

}  // namespace
}  // namespace hummock

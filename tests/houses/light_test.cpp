// Lamps that follow the sun. Checked against the textbook hour angle of a sun at a given altitude,
// cos H = (sin h − sin φ sin δ) / (cos φ cos δ), with h = −50′ and δ = ±23.436° at the solstices
// (the almanacs' definition; the obliquity of 2026 from memory): no code is shared with the sun's
// place, which comes from the reference library.
#include "engine/houses/light.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "engine/brief/brief.h"
#include "engine/houses/houses_json.h"
#include "tests/support/figure_rows.h"
#include "tests/support/yard.h"

namespace hummock::houses {
namespace {

using geom::kDegree;

double hours_by_hour_angle(double latitude_deg, double declination_deg) {
  const double phi = latitude_deg * kDegree;
  const double delta = declination_deg * kDegree;
  const double c = (std::sin(-50.0 / 60.0 * kDegree) - std::sin(phi) * std::sin(delta)) /
                   (std::cos(phi) * std::cos(delta));
  return 24.0 / geom::kPi * std::acos(std::clamp(c, -1.0, 1.0));
}

Place place_at(double latitude_deg, double longitude_deg, const char* zone) {
  Place p;
  p.latitude = latitude_deg * kDegree;
  p.longitude = longitude_deg * kDegree;
  p.time_zone = zone;
  return p;
}

double middle(const LightDay& d) {
  return 0.5 * (d.on->ut_days + d.off->ut_days);
}

TEST(HouseLight, LastsAsLongAsTheHourAngleSaysAtBothSolstices) {
  for (const double latitude : {-55.0, -34.0, 0.0, 12.0, 42.0, 51.48, 64.0}) {
    const LightRange range = light_range({}, place_at(latitude, -0.61, "+00:00"), 2026);
    const double june = hours_by_hour_angle(latitude, 23.436);
    const double december = hours_by_hour_angle(latitude, -23.436);
    EXPECT_NEAR(range.shortest, std::min(june, december), 0.02) << latitude;
    EXPECT_NEAR(range.longest, std::max(june, december), 0.02) << latitude;
  }
}

TEST(HouseLight, NoDayOfTheYearIsShorterOrLongerThanTold) {
  for (const double latitude : {-67.0, -5.0, 1.0, 40.0, 66.0, 80.0}) {
    const Place place = place_at(latitude, 100.0, "+07:00");
    const LightRange range = light_range({}, place, 2026);
    for (const LightDay& d : light_of_year({}, place, 2026)) {
      EXPECT_GE(d.hours, range.shortest - 0.002) << latitude << " " << sun::text(d.date);
      EXPECT_LE(d.hours, range.longest + 0.002) << latitude << " " << sun::text(d.date);
    }
  }
}

TEST(HouseLight, BeforeAndAfterAreAddedAtTheirEnds) {
  const Place place = place_at(42.0, 12.0, "Europe/Rome");
  HouseLight light;
  light.before = 0.5;
  light.after = 1.25;
  const LightDay d = light_of(light, place, {2026, 3, 1});
  EXPECT_NEAR((d.sunrise->ut_days - d.on->ut_days) * 24.0, 0.5, 1e-9);
  EXPECT_NEAR((d.off->ut_days - d.sunset->ut_days) * 24.0, 1.25, 1e-9);
}

TEST(HouseLight, LeastAndMostTakeTheSameFromBothEnds) {
  const Place place = place_at(60.0, 25.0, "Europe/Helsinki");
  HouseLight light;
  light.least = 10.0;
  light.most = 14.0;
  const LightRange range = light_range(light, place, 2026);
  EXPECT_NEAR(range.shortest, 10.0, 1e-9);
  EXPECT_NEAR(range.longest, 14.0, 1e-9);
  for (const sun::Date date : {sun::Date{2026, 1, 5}, sun::Date{2026, 6, 21}}) {
    const LightDay with = light_of(light, place, date);
    const LightDay without = light_of({}, place, date);
    EXPECT_NEAR(middle(with), middle(without), 1e-9);
    EXPECT_NEAR((with.off->ut_days - with.on->ut_days) * 24.0, with.hours, 1e-9);
  }
}

TEST(HouseLight, WhereTheSunDoesNotRiseOnlyTheLeastIsLit) {
  const Place place = place_at(75.0, 20.0, "+01:00");
  const LightDay dark = light_of({}, place, {2026, 12, 21});
  EXPECT_EQ(dark.hours, 0.0);
  EXPECT_FALSE(dark.on || dark.off || dark.sunrise || dark.sunset);
  HouseLight light;
  light.before = 2.0;  // before a sunrise that there is none of
  light.least = 6.0;
  EXPECT_EQ(light_of(light, place, {2026, 12, 21}).hours, 6.0);
  EXPECT_EQ(light_of(light, place, {2026, 6, 21}).hours, 24.0);
}

TEST(HouseLight, AnotherLatitudeBringsItsSeasonsAndLeavesNoonWhereItIs) {
  const Place place = place_at(51.0, 10.0, "Europe/Berlin");
  HouseLight south;
  south.latitude = -34.0 * kDegree;
  const LightDay june = light_of(south, place, {2026, 6, 21});
  EXPECT_NEAR(june.hours, hours_by_hour_angle(-34.0, 23.436), 0.02);
  EXPECT_NEAR(middle(june), middle(light_of({}, place, {2026, 6, 21})), 1e-3);
}

TEST(HouseLight, TheClockOfTheSiteChangesTheWordsNotTheLight) {
  const LightDay near = light_of({}, place_at(40.0, 170.0, "+11:00"), {2026, 4, 9});
  const LightDay far = light_of({}, place_at(40.0, 170.0, "-10:00"), {2026, 4, 9});
  EXPECT_EQ(near.on->ut_days, far.on->ut_days);
  EXPECT_EQ(near.off->ut_days, far.off->ut_days);
}

Site lit_site() {
  Site site = test::yard(20, 15, 2.0, SheetKind::mesh);
  site.place = place_at(51.0, 10.0, "Europe/Berlin");
  House house;
  house.name = "den, \"north\"";
  house.outline = {{1, 1}, {3, 1}, {3, 3}, {1, 3}};
  house.height = 2.5;
  house.light = HouseLight{};
  site.houses = {house};
  return site;
}

TEST(HouseLight, TheTableHasARowADayWithTheClockOfTheSeason) {
  std::istringstream table(light_csv(lit_site(), 2024));
  std::string line;
  int rows = 0;
  bool winter = false;
  bool summer = false;
  while (std::getline(table, line)) {
    ++rows;
    EXPECT_EQ(line.find("nan"), std::string::npos);
    winter = winter || (line.find(",2024-01-10,2024-01-10T08:") != std::string::npos &&
                        line.find("+01:00") != std::string::npos);
    summer = summer || (line.find(",2024-07-10,2024-07-10T05:") != std::string::npos &&
                        line.find("+02:00") != std::string::npos);
  }
  EXPECT_EQ(rows, 1 + 366);
  EXPECT_TRUE(winter);
  EXPECT_TRUE(summer);
}

Figures figures_of(const Site& site) {
  Model model;
  model.site = site;
  Figures figures;
  add_figures(analyse(model), model, figures);
  return figures;
}

TEST(HouseLight, FiguresAreOfTheWorstHouseAndHaveNoValueWhileOneIsUnlit) {
  Site site = lit_site();
  site.houses.push_back(site.houses[0]);
  site.houses[1].name = "long";
  site.houses[1].light->least = 12.0;
  site.houses[1].light->after = 1.0;
  Figures lit = figures_of(site);
  EXPECT_NEAR(*lit.at("houses.light_shortest_h").value, hours_by_hour_angle(51.0, -23.436), 0.02);
  EXPECT_NEAR(*lit.at("houses.light_longest_h").value, hours_by_hour_angle(51.0, 23.436) + 1.0,
              0.02);
  EXPECT_EQ(lit.at("houses.light_longest_h").where, "long");
  EXPECT_EQ(lit.at("houses.unlit").value, 0.0);
  site.houses[1].light.reset();
  EXPECT_EQ(figures_of(site).count("houses.light_shortest_h"), 0U);
  EXPECT_EQ(figures_of(site).at("houses.unlit").value, 1.0);
  site = lit_site();
  site.place.reset();  // nothing to follow
  EXPECT_EQ(figures_of(site).at("houses.unlit").value, 1.0);
}

TEST(HouseLight, RowsOnItAreMetAndShort) {
  Site site = lit_site();
  const Figures figures = figures_of(site);  // 7.9 to 16.6 h
  const auto stands = [&](const Requirement& row) {
    site.requirements = {row};
    site.species.requirements.clear();
    return judge(site, figures, {}, {}).at(0).met;
  };
  EXPECT_EQ(stands(test::asked("houses.light_shortest_h", 7.0, {})), Met::met);
  EXPECT_EQ(stands(test::asked("houses.light_shortest_h", 8.5, {})), Met::short_of);
  EXPECT_EQ(stands(test::asked("houses.light_longest_h", {}, 17.0)), Met::met);
  EXPECT_EQ(stands(test::asked("houses.light_longest_h", {}, 16.0)), Met::short_of);
  EXPECT_EQ(stands(test::asked("houses.unlit", {}, 0.0)), Met::met);
  EXPECT_EQ(stands(test::asked("houses.unlit", 1.0, {})), Met::short_of);
}

TEST(HouseLight, WithoutAPlaceOrALightItIsRefused) {
  Site site = lit_site();
  site.houses[0].light->where = {"a.site.toml", 12, "light"};
  site.place.reset();
  EXPECT_THROW(light_csv(site, 2026), InputError);
  site = lit_site();
  site.houses[0].light.reset();
  EXPECT_THROW(light_csv(site, 2026), InputError);
}

}  // namespace
}  // namespace hummock::houses

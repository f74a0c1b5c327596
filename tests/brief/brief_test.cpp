#include "engine/brief/brief.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace hummock {
namespace {

Requirement at_least(const std::string& what, double limit, Per per = Per::group) {
  Requirement row;
  row.what = what;
  row.at_least = limit;
  row.per = per;
  row.source = "a source";
  row.note = "a note";
  return row;
}

Requirement at_most(const std::string& what, double limit) {
  Requirement row = at_least(what, 0.0);
  row.at_least.reset();
  row.at_most = limit;
  return row;
}

BriefRow only_row(const Requirement& row, const Figures& figures, int animals = 1) {
  Site site;
  site.animals = animals;
  site.species.requirements = {row};
  const auto rows = judge(site, figures, {});
  EXPECT_EQ(rows.size(), 1U);
  return rows.at(0);
}

Figures area(double value) {
  return {{"space.plan_area_m2", {value, "all of it", false}}};
}

TEST(Brief, AFigureAboveItsLeastIsMetWithTheDifferenceAsMargin) {
  const BriefRow row = only_row(at_least("space.plan_area_m2", 93.0), area(108.0));
  EXPECT_EQ(row.met, Met::met);
  EXPECT_DOUBLE_EQ(*row.margin, 15.0);
  EXPECT_EQ(row.required, "at least 93");
  EXPECT_EQ(row.where, "all of it");
  EXPECT_EQ(row.source, "a source");
  EXPECT_EQ(row.note, "a note");
}

TEST(Brief, AFigureBelowItsLeastIsShortWithANegativeMargin) {
  const BriefRow row = only_row(at_least("space.plan_area_m2", 120.0), area(108.0));
  EXPECT_EQ(row.met, Met::short_of);
  EXPECT_DOUBLE_EQ(*row.margin, -12.0);
}

TEST(Brief, AFigureOnItsLimitIsMetEvenWhenDecimalsRound) {
  const double sum = 0.1 + 0.2;  // a little above 0.3
  EXPECT_EQ(only_row(at_least("space.plan_area_m2", sum), area(0.3)).met, Met::met);
  EXPECT_DOUBLE_EQ(*only_row(at_least("space.plan_area_m2", sum), area(0.3)).margin, 0.0);
  EXPECT_EQ(only_row(at_most("space.plan_area_m2", 0.3), area(sum)).met, Met::met);
  EXPECT_EQ(only_row(at_least("space.plan_area_m2", 0.3), area(0.2999)).met, Met::short_of);
}

// A search that ended at 2 m once passed a requirement of 10 m.
TEST(Brief, AFigureKnownOnlyFromBelowIsMetOnlyUpToWhatIsKnown) {
  Figure figure;
  figure.unbounded = true;
  figure.bounded_below = 2.0;
  const Figures figures{{"leap.escape_demand_m", figure}};
  EXPECT_EQ(only_row(at_least("leap.escape_demand_m", 1.5), figures).met, Met::met);
  EXPECT_DOUBLE_EQ(*only_row(at_least("leap.escape_demand_m", 1.5), figures).margin, 0.5);
  EXPECT_EQ(only_row(at_least("leap.escape_demand_m", 10.0), figures).met, Met::not_checked);
  EXPECT_EQ(only_row(at_most("leap.escape_demand_m", 1.0), figures).met, Met::short_of);
  EXPECT_EQ(only_row(at_most("leap.escape_demand_m", 5.0), figures).met, Met::not_checked);
}

TEST(Brief, AnUpperLimitCountsTheOtherWay) {
  const Figures figures{{"openings.largest_m", {0.06, "under panel 3", false}}};
  const BriefRow row = only_row(at_most("openings.largest_m", 0.05), figures);
  EXPECT_EQ(row.met, Met::short_of);
  EXPECT_NEAR(*row.margin, -0.01, 1e-15);
  EXPECT_EQ(row.required, "at most 0.05");
}

TEST(Brief, BetweenTakesTheNearerLimitAsMargin) {
  Requirement row = at_least("space.plan_area_m2", 10.0);
  row.at_most = 20.0;
  EXPECT_DOUBLE_EQ(*only_row(row, area(12.0)).margin, 2.0);
  EXPECT_DOUBLE_EQ(*only_row(row, area(19.0)).margin, 1.0);
  EXPECT_DOUBLE_EQ(*only_row(row, area(23.0)).margin, -3.0);
  EXPECT_EQ(only_row(row, area(23.0)).met, Met::short_of);
  EXPECT_EQ(only_row(row, area(9.0)).met, Met::short_of);
  EXPECT_EQ(only_row(row, area(12.0)).required, "10 to 20");
}

TEST(Brief, PerAnimalMultipliesTheLimit) {
  const BriefRow row = only_row(at_least("space.plan_area_m2", 30.0, Per::animal), area(100.0), 4);
  EXPECT_DOUBLE_EQ(*row.at_least, 120.0);
  EXPECT_EQ(row.met, Met::short_of);
  EXPECT_EQ(row.required, "at least 120 (at least 30 for each of 4)");
  EXPECT_EQ(only_row(at_least("space.plan_area_m2", 0.1, Per::animal), area(1.0), 3).required,
            "at least 0.3 (at least 0.1 for each of 3)");
}

// Dingo licence of Victoria (Australia), an older text as restated in 2016: 30 m² for up to two, 10
// m² more for each further animal.
TEST(Brief, TheVictorianDingoRuleAddsTenSquareMetresForEachFurtherAnimal) {
  Requirement row = at_least("space.plan_area_m2", 30.0, Per::extra_animal);
  row.up_to = 2;
  row.extra = 10.0;
  const double required[] = {30.0, 30.0, 40.0, 50.0, 60.0};
  for (int animals = 1; animals <= 5; ++animals) {
    EXPECT_DOUBLE_EQ(*only_row(row, area(45.0), animals).at_least, required[animals - 1]);
  }
  EXPECT_EQ(only_row(row, area(45.0), 3).met, Met::met);
  EXPECT_EQ(only_row(row, area(45.0), 4).met, Met::short_of);
  EXPECT_EQ(only_row(row, area(45.0), 4).required,
            "at least 50 (at least 30 for up to 2, 10 for each further, 4 here)");
}

TEST(Brief, NoEscapeFoundIsLargerThanAnyLimit) {
  const Figures figures{{"leap.margin", {std::nullopt, "none found", true}}};
  const BriefRow row = only_row(at_least("leap.margin", 1.3), figures);
  EXPECT_EQ(row.met, Met::met);
  EXPECT_FALSE(row.value);
  EXPECT_FALSE(row.margin);
  EXPECT_EQ(only_row(at_most("leap.margin", 1.3), figures).met, Met::short_of);
}

TEST(Brief, AFigureThatWasNotComputedIsNeverMet) {
  const Requirement row = at_least("shade.sun_hours_mean", 0.0);
  EXPECT_EQ(only_row(row, {}).met, Met::not_checked);
  EXPECT_EQ(only_row(row, {}).note, "no figure of this name in the results");
  Site site;
  site.species.requirements = {row};
  const auto rows = judge(site, {}, {{"shade", NotRun::no_place}});
  EXPECT_EQ(rows.at(0).met, Met::not_checked);
  EXPECT_EQ(rows.at(0).note, "the site has no [place]");
}

TEST(Brief, AFigureWithoutAValueOrNotANumberIsNotChecked) {
  const Requirement row = at_least("space.volume_m3", 1.0);
  EXPECT_EQ(only_row(row, {{"space.volume_m3", {}}}).met, Met::not_checked);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(only_row(row, {{"space.volume_m3", {nan, "", false}}}).met, Met::not_checked);
  const double inf = std::numeric_limits<double>::infinity();
  EXPECT_EQ(only_row(row, {{"space.volume_m3", {-inf, "", false}}}).met, Met::not_checked);
  EXPECT_EQ(only_row(row, {{"space.volume_m3", {inf, "", false}}}).met, Met::met);
}

TEST(Brief, RowsOfTheSpeciesComeBeforeThoseOfTheSite) {
  Site site;
  site.species.requirements = {at_least("space.plan_area_m2", 1.0), at_least("leap.margin", 1.0)};
  site.requirements = {at_least("relief.sa_m", 1.0)};
  const auto rows = judge(site, {}, {});
  ASSERT_EQ(rows.size(), 3U);
  EXPECT_EQ(rows[0].what, "space.plan_area_m2");
  EXPECT_EQ(rows[1].what, "leap.margin");
  EXPECT_EQ(rows[2].what, "relief.sa_m");
}

TEST(Brief, SaysItsVerdictInWords) {
  EXPECT_STREQ(to_string(Met::met), "met");
  EXPECT_STREQ(to_string(Met::short_of), "short");
  EXPECT_STREQ(to_string(Met::not_checked), "not checked");
}

}  // namespace
}  // namespace hummock

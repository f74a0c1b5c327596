// How a row of the brief stands: proven, bounded, incomplete, and what it rests on.
#include <gtest/gtest.h>

#include "engine/brief/brief.h"

namespace hummock {
namespace {

Requirement asking(const std::string& what, std::optional<double> least,
                   std::optional<double> most) {
  Requirement row;
  row.what = what;
  row.at_least = least;
  row.at_most = most;
  return row;
}

BriefRow judged(const Requirement& row, const Figure& figure,
                const std::map<std::string, RestsOn>& rests_on = {}) {
  Site site;
  site.requirements = {row};
  return judge(site, {{row.what, figure}}, {}, rests_on).at(0);
}

Figure unproven(Outcome outcome, std::optional<double> bound) {
  Figure figure;
  figure.value = bound;
  figure.unbounded = bound.has_value();
  figure.bounded_below = bound;
  figure.outcome = outcome;
  figure.why = "the search stopped there";
  return figure;
}

TEST(Standing, ABoundMeetsALeastItReachesAndNothingElse) {
  for (const Outcome outcome : {Outcome::bounded, Outcome::incomplete}) {
    const Figure figure = unproven(outcome, 1.5);
    const BriefRow met = judged(asking("leap.margin", 1.3, {}), figure);
    EXPECT_EQ(met.standing, Standing::met);
    EXPECT_EQ(met.outcome, outcome);
    EXPECT_FALSE(met.why.empty());
    EXPECT_EQ(judged(asking("leap.margin", 1.6, {}), figure).standing, Standing::not_checked);
    EXPECT_EQ(judged(asking("leap.margin", {}, 1.6), figure).standing, Standing::not_checked);
    EXPECT_EQ(judged(asking("leap.margin", {}, 1.4), figure).standing, Standing::short_of);
    EXPECT_EQ(judged(asking("leap.margin", 1.3, 1.6), figure).standing, Standing::not_checked);
  }
}

TEST(Standing, AnIncompleteFigureWithoutABoundIsNotChecked) {
  Figure figure;
  figure.value = 5.0;
  figure.outcome = Outcome::incomplete;
  figure.why = "it stopped";
  const BriefRow row = judged(asking("leap.margin", 1.0, {}), figure);
  EXPECT_EQ(row.standing, Standing::not_checked);
  EXPECT_EQ(row.why, "it stopped");
  EXPECT_TRUE(stands_in_the_way(row));
}

RestsOn hanging(bool confirmed) {
  Assumption a{"hangs", "it does not climb beneath an overhang", "true", "false"};
  if (confirmed) {
    a.confirmed_by = "R. Alder";
    a.confirmed_on = "2026-05-01";
  }
  RestsOn rests;
  rests.list = {a};
  rests.figures = {"leap.margin"};
  return rests;
}

TEST(Standing, WhatRestsOnAnAssumptionIsMetIfAndAKeepersWordMakesItMet) {
  Figure figure;
  figure.value = 1.5;
  const Requirement row = asking("leap.margin", 1.3, {});
  const BriefRow open = judged(row, figure, {{"leap", hanging(false)}});
  EXPECT_EQ(open.standing, Standing::met_if);
  EXPECT_EQ(open.met, Met::met);
  ASSERT_EQ(open.ifs.size(), 1U);
  EXPECT_TRUE(stands_in_the_way(open));
  const BriefRow sure = judged(row, figure, {{"leap", hanging(true)}});
  EXPECT_EQ(sure.standing, Standing::met);
  EXPECT_EQ(sure.ifs.size(), 1U) << "a confirmed one is still told";
  EXPECT_FALSE(stands_in_the_way(sure));
  // Nothing to rest on what is short, nor another figure on it.
  figure.value = 1.0;
  EXPECT_EQ(judged(row, figure, {{"leap", hanging(false)}}).standing, Standing::short_of);
  const Requirement area = asking("leap.living_area_m2", 0.5, {});
  EXPECT_EQ(judged(area, figure, {{"leap", hanging(false)}}).standing, Standing::met);
}

TEST(Standing, ARowLeftOutOnPurposeIsNotInTheWayAndOneThatCannotBeIs) {
  Site site;
  site.requirements = {asking("shade.sun_hours_mean", 1.0, {})};
  const auto with = [&](NotRun why) { return judge(site, {}, {{"shade", why}}).at(0); };
  EXPECT_FALSE(stands_in_the_way(with(NotRun::not_asked)));
  EXPECT_TRUE(stands_in_the_way(with(NotRun::no_place)));
  EXPECT_EQ(with(NotRun::no_place).outcome, Outcome::not_run);
  EXPECT_EQ(with(NotRun::no_place).why, "the site has no [place]");
}

}  // namespace
}  // namespace hummock

// What room, shade and sight rest on: careful values of the body's figures.
#include "engine/check/rests_on_body.h"

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// A slope of 20 degrees all over, an animal that stands on 25.
Site sloping() {
  Site site = test::yard(10.0, 10.0, 2.0);
  test::add_slope(site, {5.0, 5.0}, 20.0 * geom::kDegree, 0.0);
  site.species.stand_slope.value = 25.0 * geom::kDegree;
  site.species.requirements.clear();
  Requirement room;
  room.what = "space.usable_area_m2";
  room.at_least = 50.0;
  site.requirements = {room};
  return site;
}

BriefRow row_of(const Site& site) {
  CheckOptions options;
  options.only = {"space"};
  return run_check(test::built(site), options).brief.at(0);
}

TEST(RestsOnBody, NoCarefulValueIsNoIf) {
  const BriefRow row = row_of(sloping());
  EXPECT_EQ(row.standing, Standing::met);
  EXPECT_TRUE(row.ifs.empty());
}

TEST(RestsOnBody, ACarefulValueThatTurnsTheAnswerIsNamed) {
  Site site = sloping();
  site.species.stand_slope.careful = 15.0 * geom::kDegree;
  const BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::met_if);
  ASSERT_EQ(row.ifs.size(), 1U);
  EXPECT_EQ(row.ifs[0].key, "stand_slope");
  EXPECT_EQ(row.ifs[0].words, "it stands on slopes up to 25.0° (used; careful 15.0°)");
  EXPECT_TRUE(row.why.empty());
}

TEST(RestsOnBody, ACarefulValueOnTheOtherSideTurnsNothing) {
  Site site = sloping();
  site.species.stand_slope.careful = 35.0 * geom::kDegree;
  EXPECT_EQ(row_of(site).standing, Standing::met);
}

// One solve for both: which of them turns it is not tried, and that is said.
TEST(RestsOnBody, OfSeveralEachIsListedAndToBeConfirmed) {
  Site site = sloping();
  site.species.stand_slope.careful = 15.0 * geom::kDegree;
  site.species.body.careful = {{0.6, 0.2, 0.4}};
  Confirmation word;
  word.what = "stand_slope";
  word.by = "a keeper";
  word.on = "2026-03-01";
  site.confirmations.push_back(word);
  BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::met_if);
  EXPECT_EQ(row.ifs.size(), 2U);
  EXPECT_EQ(row.why, "which of these turns it was not tried one by one");
  word.what = "body";
  site.confirmations.push_back(word);
  EXPECT_EQ(row_of(site).standing, Standing::met);
}

TEST(RestsOnBody, ARowThatIsShortRestsOnNothing) {
  Site site = sloping();
  site.species.stand_slope.careful = 15.0 * geom::kDegree;
  site.requirements[0].at_least = 500.0;
  const BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::short_of);
  EXPECT_TRUE(row.ifs.empty());
}

}  // namespace
}  // namespace hummock

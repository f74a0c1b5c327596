// What room, shade and sight rest on: careful values of the body's figures.
#include "engine/check/rests_on_body.h"

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

template <class Figure>
void show(Figure& figure) {
  figure.source = "a trial";
  figure.evidence = "trial";
}

// A yard for an animal whose body somebody has measured.
Site measured() {
  Site site = test::yard(10.0, 10.0, 2.0);
  show(site.species.body);
  show(site.species.stand_slope);
  show(site.species.wade_depth);
  show(site.species.eye_height);
  if (site.species.swims) show(*site.species.swims);
  if (site.species.crouch) show(*site.species.crouch);
  return site;
}

// A slope of 20 degrees all over, an animal that stands on 25.
Site sloping() {
  Site site = measured();
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

// 0.75 of it is taken where nobody has shown the figure and the file gives no careful value.
TEST(RestsOnBody, AFigureThatNobodyHasShownHasACarefulEnd) {
  Site site = sloping();
  site.species.stand_slope.evidence = "assumed";
  BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::met_if);
  ASSERT_EQ(row.ifs.size(), 1U);
  EXPECT_EQ(row.ifs[0].careful_value, "18.8°");
  site.species.stand_slope.careful =
      35.0 * geom::kDegree;  // the end at which it leaves more easily
  EXPECT_EQ(row_of(site).standing, Standing::met_if);
}

TEST(RestsOnBody, OfSeveralThatIsListedWithWhichAsUsedNothingTurns) {
  Site site = sloping();
  site.species.stand_slope.careful = 15.0 * geom::kDegree;
  site.species.body.careful = {{0.6, 0.2, 0.4}};
  Confirmation word;
  word.what = "stand_slope";
  word.by = "a keeper";
  word.on = "2026-03-01";
  BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::met_if);
  ASSERT_EQ(row.ifs.size(), 1U);
  EXPECT_EQ(row.ifs[0].key, word.what);
  EXPECT_TRUE(row.why.empty());
  site.confirmations.push_back(word);
  EXPECT_EQ(row_of(site).standing, Standing::met);
}

// A pond of 6 × 6 m, 0.15 m deep, with sides of 20 degrees: 9 m² of sides by their slope, 30 m² by
// their depth, 36 m² by both.
TEST(RestsOnBody, OfTwoThatTurnItTogetherOneIsEnoughAndOfTwoThatTurnItAloneBothAreListed) {
  Site site = measured();
  Water pond;
  pond.name = "pond";
  pond.outline = {{2.0, 2.0}, {8.0, 2.0}, {8.0, 8.0}, {2.0, 8.0}};
  pond.depth = 0.15;
  pond.side_slope = 20.0 * geom::kDegree;
  site.waters.push_back(pond);
  site.species.stand_slope.value = 25.0 * geom::kDegree;
  site.species.stand_slope.careful = 15.0 * geom::kDegree;
  site.species.wade_depth.value = 0.2;
  site.species.wade_depth.careful = 0.1;
  site.species.requirements.clear();
  Requirement room;
  room.what = "space.usable_area_m2";
  room.at_least = 67.0;
  site.requirements = {room};
  const BriefRow row = row_of(site);
  EXPECT_EQ(row.standing, Standing::met_if);
  // With either as used, the other turns nothing: one of them is enough.
  ASSERT_EQ(row.ifs.size(), 1U);
  EXPECT_TRUE(row.ifs[0].key == "stand_slope" || row.ifs[0].key == "wade_depth");
  EXPECT_TRUE(row.why.empty());
  site.requirements[0].at_least = 98.0;  // each turns it now
  EXPECT_EQ(row_of(site).ifs.size(), 2U);
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

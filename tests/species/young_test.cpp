// The young and the grown as one animal: the smallest opening, the strongest leap, and which
// decides.
#include "engine/species/young.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/check/check.h"
#include "engine/openings/openings_json.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

template <class T>
Sourced<T> said(T value) {
  Sourced<T> row;
  row.value = value;
  row.source = "invented for the test";
  row.measures = "ledge";
  row.evidence = "assumed";
  return row;
}

bool told(const std::vector<std::string>& notes, const std::string& words) {
  return std::any_of(notes.begin(), notes.end(),
                     [&](const std::string& n) { return n.find(words) != std::string::npos; });
}

TEST(Young, TheSmallerHeadAndTheStrongerLeapCount) {
  Species s = test::test_animal(0.7, 1.4);
  s.young.emplace();
  s.young->least_opening = said(0.02);
  s.young->leap_height = said(0.4);
  const Species one = young_and_grown(s);
  EXPECT_EQ(one.least_opening.value, 0.02);
  EXPECT_EQ(one.least_opening.source, "the young: invented for the test");
  EXPECT_EQ(one.leap_height.value, 0.7);
  EXPECT_TRUE(opening_is_of_young(one));
  EXPECT_TRUE(
      told(young_notes(s), "openings are judged by the young (young 0.02 m, grown 0.05 m)"));
  EXPECT_TRUE(told(young_notes(s), "leaps are judged by the grown (young 0.4 m, grown 0.7 m)"));
}

TEST(Young, AYoungOneThatLeapsHigherTakesTheDistanceWithIt) {
  Species s = test::test_animal(0.7, 1.4);
  s.young.emplace();
  s.young->leap_height = said(0.9);
  const Species one = young_and_grown(s);
  EXPECT_EQ(one.leap_height.value, 0.9);
  EXPECT_NEAR(one.leap_distance.value, 1.8, 1e-12);  // twice the height, as the grown
  EXPECT_TRUE(told(young_notes(s), "leaps are judged by the young"));
}

TEST(Young, WithoutYoungNothingChanges) {
  const Species s = test::test_animal();
  const Species one = young_and_grown(s);
  EXPECT_EQ(one.least_opening.source, s.least_opening.source);
  EXPECT_EQ(one.leap_height.value, s.leap_height.value);
  EXPECT_TRUE(young_notes(s).empty());
}

TEST(Young, TheyCrouchAsLowAsTheirHeadPasses) {
  Species s = test::test_animal();
  s.crouch = said(0.15);
  s.young.emplace();
  s.young->least_opening = said(0.02);
  EXPECT_EQ(young_and_grown(s).crouch->value, 0.02);
}

// A mesh of 25 mm holds the grown, whose head passes 50 mm, and not the young.
TEST(Young, SlipThroughAMeshThatHoldsTheGrown) {
  Site site = test::yard(6, 5, 2.0);
  EXPECT_TRUE(openings::analyse(test::built(site)).met);
  site.species.young.emplace();
  site.species.young->least_opening = said(0.02);
  const Model model = test::built(site);
  const openings::Result r = openings::analyse(model);
  EXPECT_FALSE(r.met);
  FindingList list;
  openings::add_findings(r, model, list);
  ASSERT_FALSE(list.empty());
  EXPECT_NE(list[0].text.find("the young's head passes 20 mm"), std::string::npos) << list[0].text;
  EXPECT_TRUE(told(model.notes, "openings are judged by the young"));
}

TEST(Young, LeapOutWhereTheGrownDoNot) {
  Site site = test::yard(4, 4, 0.8, SheetKind::solid);
  site.species.young.emplace();
  site.species.young->leap_height = said(0.85);
  const leap::Result r = leap::analyse(test::built(site));
  ASSERT_TRUE(r.escape_leap_m.has_value());
  EXPECT_LT(r.margin, 1.0);
}

}  // namespace
}  // namespace hummock

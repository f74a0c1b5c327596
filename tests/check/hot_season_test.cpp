// Which further days of the hot season shade is asked of.
#include "engine/check/hot_season.h"

#include <gtest/gtest.h>

#include "engine/check/settings.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Site with_tree(double latitude, Season bare) {
  Site site = test::yard(10, 8, 2.0);
  site.place = Place{};
  site.place->latitude = latitude * geom::kDegree;
  test::add_tree(site, "tree", {5, 4}, 3.0, {4, 4, 2}, 2.0).crown->bare = bare;
  return site;
}

std::vector<sun::Date> days_of(const Site& site) {
  return resolve(site).shade.hot_days;
}

TEST(HotSeason, IsAskedOfNoOtherDayWhereNothingFallsBareInIt) {
  Site none = test::yard(10, 8, 2.0);
  none.place = Place{};
  none.place->latitude = 50.0 * geom::kDegree;
  EXPECT_TRUE(days_of(none).empty());
  EXPECT_TRUE(days_of(with_tree(50.0, {{11, 1}, {4, 15}})).empty());  // leafless in winter
  EXPECT_TRUE(days_of(with_tree(50.0, {{10, 1}, {5, 21}})).empty());  // the day before it begins
  EXPECT_TRUE(days_of(with_tree(-35.0, {{5, 1}, {9, 30}})).empty());  // its winter
  EXPECT_TRUE(days_of(with_tree(50.0, {{6, 1}, {9, 1}})).empty());    // bare on the day itself
}

TEST(HotSeason, TakesTheDayOfASpellThatIsNearestToTheHighestNoon) {
  using Days = std::vector<sun::Date>;
  EXPECT_EQ(days_of(with_tree(50.0, {{7, 1}, {10, 1}})), (Days{{2026, 7, 1}}));
  EXPECT_EQ(days_of(with_tree(50.0, {{2, 1}, {6, 10}})), (Days{{2026, 6, 10}}));
  EXPECT_EQ(days_of(with_tree(50.0, {{9, 19}, {5, 1}})), (Days{{2026, 9, 19}}));  // its last day
  EXPECT_EQ(days_of(with_tree(-35.0, {{1, 10}, {3, 31}})), (Days{{2027, 1, 10}}));
  EXPECT_EQ(days_of(with_tree(-35.0, {{6, 1}, {12, 1}})), (Days{{2026, 12, 1}}));
}

TEST(HotSeason, AsksEverySetOfPlantsThatStandBareTogether) {
  Site site = with_tree(50.0, {{7, 1}, {8, 31}});
  test::add_tree(site, "other", {3, 4}, 3.0, {2, 2, 2}, 2.0).crown->bare = Season{{8, 1}, {9, 10}};
  const std::vector<sun::Date> days{{2026, 7, 1}, {2026, 8, 1}, {2026, 9, 1}};
  EXPECT_EQ(days_of(site), days);
}

TEST(HotSeason, OfADayThatIsAskedForIsThatDay) {
  CheckOptions options;
  options.date = sun::Date{2026, 6, 21};
  EXPECT_TRUE(resolve(with_tree(50.0, {{7, 1}, {10, 1}}), options).shade.hot_days.empty());
}

}  // namespace
}  // namespace hummock

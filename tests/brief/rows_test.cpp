// Rows of several kinds judged without a model: alternatives from the standings of their rows,
// seasons that meet or not, the young, words, and what contradicts.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/input_error.h"
#include "engine/brief/asked.h"
#include "engine/brief/brief.h"
#include "engine/brief/contradictions.h"
#include "engine/brief/either.h"
#include "engine/brief/signed.h"
#include "engine/brief/when.h"

namespace hummock {
namespace {

Requirement of_area(std::optional<double> least, std::optional<double> most = {}) {
  Requirement row;
  row.what = "space.plan_area_m2";
  row.at_least = least;
  row.at_most = most;
  return row;
}

Figures area_of(double value) {
  Figure figure;
  figure.value = value;
  return {{"space.plan_area_m2", figure}};
}

BriefRow standing_as(Standing standing, const std::string& set = {}) {
  BriefRow row;
  row.standing = standing;
  row.set = set;
  return row;
}

// Two sets, of which the first has two rows.
std::vector<BriefRow> two_sets(Standing a, Standing b, Standing other) {
  BriefRow either;
  either.kind = RowKind::either;
  either.sets = {{"one", Standing::not_checked, {1, 2}}, {"two", Standing::not_checked, {3}}};
  std::vector<BriefRow> rows{either, standing_as(a, "one"), standing_as(b, "one"),
                             standing_as(other, "two")};
  settle_eithers(rows);
  return rows;
}

// By hand over every three standings: a set is as bad as its worst row, the either as good as its
// best set.
TEST(EitherOf, StandsAsTheBestOfItsSetsAndASetAsTheWorstOfItsRows) {
  const std::vector<Standing> best_first{Standing::met, Standing::met_if, Standing::open,
                                         Standing::not_checked, Standing::short_of};
  for (std::size_t a = 0; a < best_first.size(); ++a)
    for (std::size_t b = 0; b < best_first.size(); ++b)
      for (std::size_t c = 0; c < best_first.size(); ++c) {
        const auto rows = two_sets(best_first[a], best_first[b], best_first[c]);
        EXPECT_EQ(rows[0].standing, best_first[std::min(std::max(a, b), c)]) << a << b << c;
        EXPECT_EQ(stands_in_the_way(rows[0]), rows[0].standing != Standing::met);
        EXPECT_FALSE(stands_in_the_way(rows[3])) << "its either does";
      }
}

TEST(EitherOf, ASetThatAsksNothingHereIsNotWhatMeetsIt) {
  const auto rows = two_sets(Standing::not_asked, Standing::not_asked, Standing::short_of);
  EXPECT_EQ(rows[0].standing, Standing::short_of);
  EXPECT_EQ(two_sets(Standing::not_asked, Standing::met, Standing::short_of)[0].standing,
            Standing::met);
  EXPECT_EQ(two_sets(Standing::not_asked, Standing::not_asked, Standing::not_asked)[0].standing,
            Standing::not_asked);
}

TEST(Whens, AreAtOnceUnlessTheirSeasonsAreApart) {
  const Site site;
  const auto season = [](MonthDay from, MonthDay to) {
    When when;
    when.season = Season{from, to};
    return std::optional<When>(when);
  };
  const auto winter = season({11, 1}, {3, 31}), summer = season({5, 1}, {9, 30});
  const auto spring = season({3, 31}, {5, 1}), july = season({7, 1}, {7, 31});
  EXPECT_FALSE(at_once(site, winter, summer));
  EXPECT_FALSE(at_once(site, summer, winter));
  EXPECT_TRUE(at_once(site, winter, spring));
  EXPECT_TRUE(at_once(site, spring, summer));
  EXPECT_TRUE(at_once(site, july, summer)) << "one within the other";
  EXPECT_TRUE(at_once(site, summer, july));
  EXPECT_TRUE(at_once(site, winter, winter));
  EXPECT_TRUE(at_once(site, {}, summer));
}

bool contradicts(const Site& site) {
  try {
    refuse_contradictions(site);
  } catch (const InputError&) {
    return true;
  }
  return false;
}

TEST(Contradictions, AreOfLimitsThatLeaveNoValue) {
  Site site;
  site.animals = 3;
  site.requirements = {of_area(30.0), of_area({}, 30.0)};
  EXPECT_FALSE(contradicts(site));
  site.requirements[0].per = Per::animal;  // 90 for three
  EXPECT_TRUE(contradicts(site));
  site.requirements[0].what = "space.free_area_m2";
  EXPECT_FALSE(contradicts(site)) << "another figure";
}

TEST(Contradictions, AreNoneOfAlternativesNorOfSeasonsApart) {
  Site site;
  Either either;
  either.sets = {{"large", {of_area(90.0)}, {}}, {"small", {of_area({}, 50.0)}, {}}};
  site.eithers = {either};
  EXPECT_FALSE(contradicts(site));
  site.requirements = {of_area({}, 80.0)};
  EXPECT_TRUE(contradicts(site)) << "the large one could never be met";
  site.eithers.clear();
  site.requirements.push_back(of_area(90.0));
  site.requirements[0].when.emplace().season = Season{{6, 1}, {8, 31}};
  EXPECT_TRUE(contradicts(site));
  site.requirements[1].when.emplace().season = Season{{11, 1}, {2, 28}};
  EXPECT_FALSE(contradicts(site));
}

// An either that is only wished for is judged like any other and stands in nobody's way.
TEST(Eithers, ThatAreWishedForAreJudged) {
  Site site;
  Either wish;
  wish.weight = Weight::should;
  wish.sets = {{"large", {of_area(90.0)}, {}}, {"small", {of_area(50.0)}, {}}};
  site.eithers = {wish};
  for (const auto& [area, standing] :
       {std::pair(60.0, Standing::met), {40.0, Standing::short_of}}) {
    Figure figure;
    figure.value = area;
    const std::vector<BriefRow> rows = judge(site, {{of_area(1.0).what, figure}}, {});
    const auto either = std::find_if(
        rows.begin(), rows.end(), [](const BriefRow& row) { return row.kind == RowKind::either; });
    ASSERT_NE(either, rows.end());
    EXPECT_EQ(either->standing, standing) << area;
    EXPECT_EQ(std::count_if(rows.begin(), rows.end(), stands_in_the_way), 0) << area;
  }
}

// What the sum of its parts is, by hand.
TEST(Offspring, AddToTheLimitAndUnsaidLeaveItOpen) {
  Site site;
  Requirement row = of_area(50.0);
  row.per = Per::with_offspring;
  row.extra = 12.5;
  site.requirements = {row};
  EXPECT_FALSE(limits_here(row, site).low.has_value());
  EXPECT_EQ(judge(site, area_of(1e6), {}).at(0).standing, Standing::not_checked);
  for (const int young : {0, 1, 4}) {
    site.offspring = young;
    const double limit = 50.0 + 12.5 * young;
    EXPECT_EQ(judge(site, area_of(limit), {}).at(0).standing, Standing::met) << young;
    EXPECT_EQ(judge(site, area_of(limit - 0.1), {}).at(0).standing, Standing::short_of) << young;
  }
}

TEST(WordsOfAFigure, OfNoWordAtAllAreNotChecked) {
  Requirement row;
  row.what = "quantities.fence_kinds";
  row.one_of = {"mesh"};
  Site site;
  site.requirements = {row};
  Figure none;
  none.words.emplace();
  EXPECT_EQ(judge(site, {{row.what, none}}, {}).at(0).standing, Standing::not_checked);
  EXPECT_EQ(judge(site, {{row.what, Figure{}}}, {}).at(0).standing, Standing::not_checked);
  none.words = {"mesh"};
  EXPECT_EQ(judge(site, {{row.what, none}}, {}).at(0).standing, Standing::met);
  none.words = {"glass", "mesh"};
  const BriefRow both = judge(site, {{row.what, none}}, {}).at(0);
  EXPECT_EQ(both.standing, Standing::short_of);
  EXPECT_EQ(both.where, "there is glass");
}

TEST(Answers, OfASpeciesFileAreForItsOwnRowsOnly) {
  Requirement ask;
  ask.ask = "Is it so?";
  Site site;
  site.requirements = {ask};
  site.species.confirmations = {{"Is it so?", "R. Alder", "2026-05-01", "", {}}};
  EXPECT_EQ(judge(site, {}, {}).at(0).standing, Standing::open);
  site.species.requirements.swap(site.requirements);
  EXPECT_EQ(judge(site, {}, {}).at(0).standing, Standing::met);
  site.species.confirmations.clear();
  EXPECT_EQ(judge(site, {}, {}).at(0).standing, Standing::open);
  site.confirmations = {{"Is it so?", "R. Alder", "2026-05-01", "", {}}};
  EXPECT_EQ(judge(site, {}, {}).at(0).standing, Standing::met);
}

TEST(Stricter, IsARowThatMustBeMetAndIsAlwaysAsked) {
  Site site;
  site.requirements = {of_area(50.0), of_area(70.0)};
  const auto named = [&] { return judge(site, area_of(60.0), {}).at(0).stricter; };
  EXPECT_EQ(named(), "the site or its species");
  site.requirements[1].weight = Weight::should;
  EXPECT_EQ(named(), "");
  site.requirements[1].weight = Weight::must;
  site.requirements[1].when.emplace().offspring = true;
  EXPECT_EQ(named(), "");
}

}  // namespace
}  // namespace hummock

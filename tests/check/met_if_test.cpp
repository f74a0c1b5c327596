// *Met, if* of openings and tunnels, and of figures with other records or careful ends: yards whose
// answer at the careful figures is known on paper.
#include <gtest/gtest.h>

#include <set>

#include "engine/check/check.h"
#include "engine/check/idle_confirmations.h"
#include "engine/dig/rests_on.h"
#include "engine/leap/rows/premises.h"
#include "engine/leap/rows/rests_on.h"
#include "engine/openings/rests_on.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Site meshed(double aperture) {
  Site site = test::yard(6, 5, 2.0);
  site.boundary.sections[0].aperture = aperture;
  site.boundary.sections[0].footing = Footing{5.0, 0.2};
  return site;
}

RestsOn of_openings(const Site& site) {
  const Model model = test::built(site);
  return openings::what_it_rests_on(model, openings::analyse(model));
}

// The head passes 50 mm, invented: the careful end is four fifths of it, 40 mm.
TEST(MetIf, AMeshBetweenTheUsedAndTheCarefulHeadRestsOnTheHead) {
  EXPECT_TRUE(of_openings(meshed(0.035)).list.empty());
  const RestsOn rests = of_openings(meshed(0.045));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "least_opening");
  EXPECT_EQ(rests.list[0].careful_value, "0.040 m");
  EXPECT_EQ(rests.list[0].breaking_value, "0.045 m");
  EXPECT_TRUE(of_openings(meshed(0.055)).list.empty());  // a way out already
}

TEST(MetIf, AMeasuredHeadIsNoAssumption) {
  Site site = meshed(0.045);
  site.species.least_opening.source = "skulls of a museum";
  site.species.least_opening.evidence = "trial";
  EXPECT_TRUE(of_openings(site).list.empty());
  site.species.least_opening.careful = 0.042;
  EXPECT_EQ(of_openings(site).list.size(), 1U);
}

// A skirt of 1.2 m is passed below: deeper than the 0.9 m it digs, within the careful 1.35 m; the
// shortest way down and up is 2.4 m of the 3.0 m it digs. Length alone changes nothing.
TEST(MetIf, ASkirtBetweenTheUsedAndTheCarefulDepthRestsOnTheDepth) {
  Site site = test::yard(6, 5, 2.0);
  site.boundary.sections[0].buried = 1.2;
  const Model model = test::built(site);
  const dig::Result found = dig::analyse(model);
  ASSERT_TRUE(found.met);
  const RestsOn rests = dig::what_it_rests_on(model, {}, found);
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "dig_depth");
  EXPECT_EQ(rests.list[0].careful_value, "1.35 m");
}

TEST(MetIf, ASkirtBelowTheCarefulDepthRestsOnNothing) {
  Site site = test::yard(6, 5, 2.0);
  site.boundary.sections[0].buried = 1.5;
  const Model model = test::built(site);
  EXPECT_TRUE(dig::what_it_rests_on(model, {}, dig::analyse(model)).list.empty());
}

TEST(MetIf, AnAnimalThatDoesNotDigRestsOnNothing) {
  Site site = test::yard(6, 5, 2.0);
  site.species.dig_depth.value = site.species.dig_length.value = 0.0;
  const Model model = test::built(site);
  EXPECT_TRUE(dig::what_it_rests_on(model, {}, dig::analyse(model)).list.empty());
}

// In the brief: the row is named, and stands in the way until a keeper has confirmed it.
TEST(MetIf, TheBriefsRowSaysSoUntilAKeeperConfirms) {
  Site site = meshed(0.045);
  Requirement row;
  row.what = "openings.largest_m";
  row.at_most = 0.05;
  row.source = "invented for the test";
  site.requirements.push_back(row);
  CheckOptions options;
  options.only = {"openings"};
  CheckResults results = run_check(test::built(site), options);
  ASSERT_EQ(results.brief.size(), 1U);
  EXPECT_EQ(results.brief[0].standing, Standing::met_if);
  EXPECT_TRUE(stands_in_the_way(results.brief[0]));
  site.confirmations.push_back({"least_opening", "head keeper", "2026-05-01", "", {}});
  results = run_check(test::built(site), options);
  EXPECT_EQ(results.brief[0].standing, Standing::met);
  EXPECT_FALSE(stands_in_the_way(results.brief[0]));
}

// Of a keeper's word for what nothing rests on it is said that it may go.
TEST(MetIf, AConfirmationThatNothingRestsOnIsTold) {
  Site site = meshed(0.03);
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "a trial";
  site.confirmations.push_back({"hangs", "head keeper", "2026-05-01", "", {}});
  CheckOptions options;
  options.only = {"leap", "openings", "dig"};
  const Model model = test::built(site);
  const CheckResults results = run_check(model, options);
  const std::vector<std::string> idle = idle_confirmations(model.site, results);
  ASSERT_EQ(idle.size(), 1U);
  EXPECT_NE(idle[0].find("'hangs'"), std::string::npos) << idle[0];
  options.only = {"leap"};
  EXPECT_TRUE(idle_confirmations(model.site, run_check(model, options)).empty());
}

// A trial is used and an anecdote is stronger: the answer rests on the anecdote being wrong.
TEST(MetIf, AStrongerRecordIsTheCarefulEnd) {
  Site site = test::yard(4, 4, 0.9, SheetKind::solid);
  Sourced<double>& leap = site.species.leap_height;
  leap.evidence = "trial";
  leap.source = "a trial";
  Sourced<double> other = leap;
  other.value = 1.0;
  other.evidence = "anecdote";
  leap.used = true;
  leap.records = {leap, other};
  const Model model = test::built(site);
  const RestsOn rests = leap::what_it_rests_on(model, {}, leap::analyse(model));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].careful_value, "1.00 m");
  EXPECT_NEAR(std::stod(rests.list[0].breaking_value), 0.9, 0.01);
}

// Every row of the body may have a careful end, and each is then a premise of its own.
TEST(MetIf, EveryCarefulEndOfTheBodyIsAPremise) {
  Site site = test::yard(4, 4, 2.0);
  Species& s = site.species;
  s.crouch->evidence = "trial";
  s.crouch->source = "a trial";
  const auto used = leap::premises(test::built(site), {}).size();
  s.grip.careful = 0.1;
  s.cling_leap.careful = 0.5;
  s.stand_slope.careful = 1.0;
  s.crouch->careful = 0.05;
  s.reach->careful = 0.3;
  s.climbs_past_upright->careful = 0.5;
  s.leap_from_water->careful = 1.0;
  s.perch->careful = 0.0;
  EXPECT_EQ(leap::premises(test::built(site), {}).size(), used + 8U);
}

// Where the file gives no careful end and nobody has shown the figure, one is taken: of what bears
// on the site. Level ground and upright walls have no slope to stand on, nothing there is climbed.
TEST(MetIf, AnUnsureNumberWithoutACarefulEndIsTakenFurther) {
  Site site = test::yard(4, 4, 0.78, SheetKind::solid);
  Species& s = site.species;
  s.leap_height.evidence = s.leap_distance.evidence = "trial";
  s.leap_height.source = s.leap_distance.source = "a trial";
  const auto keys = [&] {
    std::set<std::string> found;
    for (const leap::Premise& p : leap::premises(test::built(site), {})) found.insert(p.told.key);
    return found;
  };
  EXPECT_EQ(keys().count("grip"), 0U);
  for (Sourced<double>* figure : {&s.grip, &s.cling_leap, &s.stand_slope})
    figure->source = "from memory";
  EXPECT_EQ(keys().count("grip"), 1U);
  EXPECT_EQ(keys().count("cling_leap"), 0U);
  EXPECT_EQ(keys().count("stand_slope"), 0U);
  s.climbs.value = {"wood"};
  EXPECT_EQ(keys().count("cling_leap"), 1U);
  // 0.7 m of leap and a tenth of grip, where none is told.
  const Model model = test::built(site);
  const RestsOn rests = leap::what_it_rests_on(model, {}, leap::analyse(model));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "grip");
  EXPECT_EQ(rests.list[0].careful_value, "0.100 m");
}

// A ledge under a flat sheet: 0.3 m of reach gets it round the edge, the 0.1 m used does not.
TEST(MetIf, AReachThatIsNotSureStandsAsAnIf) {
  Site site = test::yard(4, 4, 1.6);
  site.species.climbs.value = {"mesh"};
  site.species.leap_height.evidence = "trial";
  site.species.leap_height.source = "a trial";
  site.species.hangs->evidence = "trial";
  site.species.hangs->source = "a trial";
  site.species.reach->value = 0.1;
  site.species.reach->careful = 0.4;
  site.boundary.sections[0].overhang = Overhang{0.25, 0.0};
  const Model model = test::built(site);
  const RestsOn rests = leap::what_it_rests_on(model, {}, leap::analyse(model));
  ASSERT_EQ(rests.list.size(), 1U);
  EXPECT_EQ(rests.list[0].key, "reach");
}

}  // namespace
}  // namespace hummock

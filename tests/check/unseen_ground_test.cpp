// What the ground lacks of its files is an if of every requirement it concerns, until a keeper
// confirms it.
#include "engine/check/unseen_ground.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "tests/support/run_program.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

using testing::ScratchFolder;
using testing::write_text;

void ask(Site& site, const std::string& what, std::optional<double> least,
         std::optional<double> most) {
  Requirement row;
  row.what = what;
  row.at_least = least;
  row.at_most = most;
  row.source = "invented for the test";
  site.requirements.push_back(row);
}

// 12 × 9 m at a cell of 0.5 m; three requirements that are met: one of the inside alone, one of
// what lies round it too, and one that is short.
Site asked_yard() {
  Site site = test::yard(12, 9, 2.0);
  site.ground.cell = 0.5;
  ask(site, "space.plan_area_m2", 50.0, std::nullopt);
  ask(site, "earthworks.cut_m3", std::nullopt, 1000.0);
  ask(site, "space.plan_area_m2", 5000.0, std::nullopt);
  return site;
}

std::vector<BriefRow> brief_of(const Site& site) {
  CheckOptions options;
  options.only = {"space", "earthworks"};
  return run_check(test::built(site), options).brief;
}

// A plane of points a metre apart, with a pit between the nodes of the cell when `pit` is not 0.
std::string points(double pit) {
  std::string text = "x,y,z\n";
  for (int i = -3; i <= 15; ++i)
    for (int j = -3; j <= 12; ++j) text += fmt::format("{},{},0\n", i, j);
  if (pit != 0.0) text += fmt::format("6.25,4.25,{}\n", -pit);
  return text;
}

// The same as pixels of 0.1 m: -pit in one of them.
std::string grid(double pit) {
  std::string text = "ncols 180\nnrows 150\nxllcorner -3\nyllcorner -3\ncellsize 0.1\n";
  for (int r = 0; r < 150; ++r)
    for (int c = 0; c < 180; ++c)
      text += (r == 77 && c == 92 ? fmt::format("{}", -pit) : "0") + (c == 179 ? "\n" : " ");
  return text;
}

void confirm(std::vector<Confirmation>& list, const std::string& what) {
  list.push_back({what, "A. Keeper", "2026-05-01", "", {}});
}

TEST(UnseenGround, DetailBelowTheCellIsAnIfOfWhatStandsOnTheGround) {
  const ScratchFolder folder;
  for (const bool raster : {false, true}) {
    const auto file = folder / (raster ? "g.asc" : "p.csv");
    Site site = asked_yard();
    site.ground.level.reset();
    (raster ? site.ground.raster : site.ground.points) = file;
    for (const double pit : {0.0, 0.04, 0.3}) {
      write_text(file, raster ? grid(pit) : points(pit));
      const auto rows = brief_of(site);
      const bool lost = pit > 0.05;  // the bound of engine/ground/lost_detail.h
      EXPECT_EQ(rows[0].standing, lost ? Standing::met_if : Standing::met) << raster << pit;
      EXPECT_EQ(rows[1].standing, lost ? Standing::met_if : Standing::met) << raster << pit;
      EXPECT_EQ(rows[2].standing, Standing::short_of);
      EXPECT_EQ(rows[0].ifs.size(), lost ? 1U : 0U);
      EXPECT_TRUE(rows[2].ifs.empty());
      if (!lost) continue;
      EXPECT_EQ(rows[0].ifs[0].key, "survey-detail");
      EXPECT_NE(rows[0].ifs[0].words.find("0.30 m of height, at (6.25, 4.25)"), std::string::npos)
          << rows[0].ifs[0].words;
      EXPECT_TRUE(stands_in_the_way(rows[0]));
    }
  }
}

Site cut_yard() {
  Site site = asked_yard();
  test::add_mound(site, {14.0, 4.0}, 4.0, 1.0);  // to x = 18; the margin ends at 14
  return site;
}

// Room is of the inside alone: what lies beyond the margin does not concern it.
TEST(UnseenGround, AFormCutByTheMarginIsAnIfOfWhatLooksBeyondTheBoundary) {
  Site site = cut_yard();
  const auto rows = brief_of(site);
  EXPECT_EQ(rows[0].standing, Standing::met);
  ASSERT_EQ(rows[1].standing, Standing::met_if);
  ASSERT_EQ(rows[1].ifs.size(), 1U);
  EXPECT_EQ(rows[1].ifs[0].key, "form-cut");
  site.ground.margin = 8.0;
  EXPECT_EQ(brief_of(site)[1].standing, Standing::met);
}

TEST(UnseenGround, IsConfirmedByAKeeperAndNotByAccept) {
  Site site = cut_yard();
  site.accept = {"survey-coarse", "survey-hole", "heights", "mesh-large"};
  EXPECT_EQ(brief_of(site)[1].standing, Standing::met_if);
  Site by_site = site;
  confirm(by_site.confirmations, "form-cut");
  Site by_species = site;
  confirm(by_species.species.confirmations, "form-cut");
  for (const Site& sure : {by_site, by_species}) {
    const auto rows = brief_of(sure);
    EXPECT_EQ(rows[1].standing, Standing::met);
    ASSERT_EQ(rows[1].ifs.size(), 1U) << "told, though confirmed";
    EXPECT_EQ(rows[1].ifs[0].confirmed_by, "A. Keeper");
  }
}

// What is accepted is said wherever the notes are.
TEST(UnseenGround, WhatIsAcceptedIsNoted) {
  Site site = asked_yard();
  EXPECT_TRUE(test::built(site).notes.empty());
  site.accept = {"heights", "mesh-large"};
  const Model model = test::built(site);
  ASSERT_EQ(model.notes.size(), 1U);
  EXPECT_NE(model.notes[0].find("accepts: heights, mesh-large"), std::string::npos);
}

// At most three lines a row: the last is of several, and all of them must be confirmed.
TEST(UnseenGround, ManyIfsShareTheLastLine) {
  Model model = test::built(asked_yard());
  model.unseen = {{"survey-detail", "a", "", ""}, {"form-cut", "b", "", ""}};
  BriefRow row;
  row.what = "leap.margin";
  row.standing = Standing::met_if;
  row.ifs = {{"hangs", "c", "", ""}, {"reach", "d", "", ""}, {"grip", "e", "", ""}};
  confirm(model.site.confirmations, "form-cut");
  std::vector<BriefRow> rows{row};
  rest_on_unseen_ground(model, rows);
  ASSERT_EQ(rows[0].ifs.size(), kMostIfs);
  EXPECT_EQ(rows[0].ifs[2].key, "grip+survey-detail+form-cut");
  EXPECT_EQ(rows[0].ifs[2].words, "e; and a; and b");
  EXPECT_FALSE(rows[0].ifs[2].confirmed());
}

}  // namespace
}  // namespace hummock

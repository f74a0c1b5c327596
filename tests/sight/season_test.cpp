// What is hidden while leaves are up, and what with leaves down.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/sight/sight.h"
#include "engine/sight/sight_json.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// A window along the whole south side; a hedge 2 m deep and high right across, cover 0.99. A line
// through it leaves 0.01^(L / 2) of the sight, hidden from L = 1 m on; bare 0.01^(0.29 L / 2), seen
// to L = 3.4 m.
Site behind_a_hedge(bool falls) {
  Site site = test::yard(10, 8, 3.0, SheetKind::glass);
  Viewing v;
  v.name = "window";
  v.edge = 0;
  v.width = 10.0;
  v.stand_off = 0.5;
  v.eye_height = 1.5;
  site.viewings.push_back(v);
  Planting hedge;
  hedge.name = "hedge";
  hedge.outline = {{0, 3}, {10, 3}, {10, 5}, {0, 5}};
  hedge.height = 2.0;
  hedge.cover = 0.99;
  if (falls) hedge.bare = Season{{11, 1}, {3, 31}};
  site.plantings.push_back(hedge);
  return site;
}

TEST(SightSeason, WhatIsUnseenIsToldWithLeavesDown) {
  const sight::Result evergreen = sight::analyse(test::built(behind_a_hedge(false)));
  const sight::Result falls = sight::analyse(test::built(behind_a_hedge(true)));
  EXPECT_NEAR(evergreen.unseen_area_m2, 10.0 * 4.0, 2.5);  // from y = 4 on
  EXPECT_FALSE(evergreen.unseen_in_leaf_m2);
  EXPECT_EQ(falls.unseen_area_m2, 0.0);
  EXPECT_TRUE(falls.hidden.empty());
  ASSERT_TRUE(falls.unseen_in_leaf_m2);
  EXPECT_EQ(*falls.unseen_in_leaf_m2, evergreen.unseen_area_m2);
  EXPECT_EQ(falls.seen_share, evergreen.seen_share);  // what guests see: in leaf
  ASSERT_EQ(falls.screens.size(), 1U);
  EXPECT_EQ(falls.screens[0].hides_m2, evergreen.screens[0].hides_m2);
}

TEST(SightSeason, WithLeavesDownItIsTheBareSeasonAlone) {
  const Model model = test::built(behind_a_hedge(true));
  sight::Settings bare;
  bare.bare = true;
  const sight::Result alone = sight::analyse(model, bare), both = sight::analyse(model);
  EXPECT_EQ(alone.unseen_area_m2, both.unseen_area_m2);
  EXPECT_EQ(alone.seen_by.values.size(), both.seen_by.values.size());
  for (std::size_t n = 0; n < alone.seen_by.values.size(); ++n) {
    if (std::isnan(alone.seen_by.values[n])) continue;
    ASSERT_EQ(alone.seen_by.values[n], both.seen_by.values[n]);
  }
}

TEST(SightSeason, FiguresSayOfWhichSeason) {
  const Model model = test::built(behind_a_hedge(true));
  Figures figures;
  sight::add_figures(sight::analyse(model), model, figures);
  EXPECT_EQ(figures.at("sight.seen_share").where, "in leaf");
  EXPECT_NE(figures.at("sight.unseen_area_m2").where.find("leaves down; in leaf"),
            std::string::npos);
}

}  // namespace
}  // namespace hummock

// Guests whose eyes are inside an opaque solid: what they see is not known, and so nothing is met
// on their seeing nothing.
#include <gtest/gtest.h>

#include "engine/sight/sight.h"
#include "engine/sight/sight_json.h"
#include "tests/sight/watched_yard.h"

namespace hummock {
namespace {

Surrounding& add_hall(Site& site, double from, double to, double front, double height = 4.0) {
  Surrounding hall;
  hall.name = "hall";
  hall.outline = {{from, -3.0}, {to, -3.0}, {to, front}, {from, front}};
  hall.height = height;
  site.surroundings.push_back(hall);
  return site.surroundings.back();
}

struct Told {
  sight::Result result;
  Figures figures;
  FindingList findings;
};
Told told(const Site& site) {
  const Model model = test::built(site);
  Told out{sight::analyse(model), {}, {}};
  sight::add_figures(out.result, model, out.figures);
  sight::add_findings(out.result, model, out.findings);
  return out;
}

TEST(SightOfTheWalledIn, IsNotKnown) {
  Site site = test::watched(SheetKind::glass, 0.0, 10.0);
  add_hall(site, -1.0, 11.0, -0.1);
  const Told t = told(site);
  EXPECT_EQ(t.result.views[0].eyes_inside, t.result.views[0].eyes);
  EXPECT_EQ(t.result.views[0].inside, "hall");
  for (const char* key :
       {"sight.unseen_area_m2", "sight.hidden_places", "sight.largest_hidden_m2"}) {
    EXPECT_EQ(t.figures.at(key).outcome, Outcome::incomplete) << key;
    EXPECT_FALSE(t.figures.at(key).bounded_below) << key;
  }
  EXPECT_EQ(t.figures.at("sight.seen_share").bounded_below, t.result.seen_share);
  EXPECT_EQ(t.figures.at("sight.usable_area_m2").outcome, Outcome::proven);
  ASSERT_EQ(t.findings.size(), 1U);
  EXPECT_NE(t.findings[0].text.find("'hall'"), std::string::npos);
}

TEST(SightOfTheWalledIn, IsNotKnownWhereSomeOfThemAre) {
  Site site = test::watched(SheetKind::glass, 0.0, 10.0);
  add_hall(site, -1.0, 3.0, -0.1);
  const Told t = told(site);
  EXPECT_GT(t.result.views[0].eyes_inside, 0);
  EXPECT_LT(t.result.views[0].eyes_inside, t.result.views[0].eyes);
  EXPECT_EQ(t.figures.at("sight.unseen_area_m2").outcome, Outcome::incomplete);
}

// Nobody stands with the feet in a building, nor with the eyes in leaves.
TEST(SightOfTheWalledIn, IsNotKnownOfFeetInWallsAndEyesInLeaves) {
  Site site = test::watched(SheetKind::glass, 0.0, 10.0);
  add_hall(site, -1.0, 11.0, -0.1, 1.4);
  EXPECT_EQ(told(site).figures.at("sight.unseen_area_m2").outcome, Outcome::incomplete);
  site.surroundings.clear();
  add_hall(site, -1.0, 11.0, -0.1).leaf_area_density = 1.0;
  EXPECT_EQ(told(site).figures.at("sight.unseen_area_m2").outcome, Outcome::incomplete);
}

TEST(SightOfTheWalledIn, IsThatOfGuestsBesideBehindAndAboveAHall) {
  Site site = test::watched(SheetKind::glass, 0.0, 10.0);
  add_hall(site, -1.0, 11.0, -1.0);  // behind them
  EXPECT_EQ(told(site).figures.at("sight.unseen_area_m2").outcome, Outcome::proven);
  site.surroundings.clear();
  add_hall(site, -1.0, 11.0, -0.1, 0.9);  // a parapet: they look out over it
  EXPECT_EQ(told(site).figures.at("sight.unseen_area_m2").outcome, Outcome::proven);
  site.surroundings.clear();
  add_hall(site, 2.9, 3.1, -0.1);  // a pillar 0.2 m wide: nobody is in it
  EXPECT_EQ(told(site).figures.at("sight.unseen_area_m2").outcome, Outcome::proven);
}

}  // namespace
}  // namespace hummock

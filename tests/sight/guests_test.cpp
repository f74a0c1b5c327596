// Guests who stand beyond the modelled ground see as those on it do.
#include "engine/ground/guests.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "engine/sight/sight.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// 10 × 10 m behind a wall of 2 m; guests 20 m off in the south.
Site walled() {
  Site site = test::yard(10.0, 10.0, 2.0, SheetKind::solid);
  site.ground.margin = 3.0;
  Viewing guests;
  guests.name = "bank";
  guests.edge = 0;
  guests.width = 10.0;
  guests.stand_off = 20.0;
  site.viewings.push_back(guests);
  return site;
}

GroundForm bank(double degrees) {
  GroundForm slope;
  slope.kind = FormKind::slope;
  slope.at = {5.0, 0.0};
  slope.angle = degrees * geom::kDegree;
  slope.outline = {{-40.0, -40.0}, {50.0, -40.0}, {50.0, 0.0}, {-40.0, 0.0}};
  return slope;
}

double unseen(Site site, double margin) {
  site.ground.margin = margin;
  return sight::analyse(test::built(site)).unseen_area_m2;
}

TEST(SightOfGuests, OnABankIsTheSameWhateverTheMargin) {
  Site site = walled();
  EXPECT_NEAR(unseen(site, 3.0), 100.0, 1e-9);  // on the level they see over no wall of 2 m
  site.ground.forms.push_back(bank(20.0));
  const double whole = unseen(site, 24.0);
  EXPECT_LT(whole, 75.0);
  EXPECT_NEAR(unseen(site, 3.0), whole, 2.0);
}

TEST(SightOfGuests, IsHiddenByARidgeBeyondTheMarginToo) {
  Site site = walled();
  site.ground.forms.push_back(bank(20.0));
  GroundForm ridge;
  ridge.kind = FormKind::ridge;
  ridge.path = {{-20.0, -12.0}, {30.0, -12.0}};
  ridge.radius = 3.0;
  ridge.height = 6.0;
  site.ground.forms.push_back(ridge);
  EXPECT_NEAR(unseen(site, 24.0), 100.0, 1e-9);
  EXPECT_NEAR(unseen(site, 3.0), 100.0, 1e-9);
}

bool rests_on_a_guess(const Site& site) {
  const Model model = test::built(site);
  return std::any_of(model.unseen.begin(), model.unseen.end(),
                     [](const Unseen& u) { return u.key == ground::kGuestGround; });
}

// Only where a survey has no height under them.
TEST(SightOfGuests, RestsOnAGuessWhereTheSurveyEnds) {
  Site site = walled();
  EXPECT_FALSE(rests_on_a_guess(site));
  const auto file = std::filesystem::path(::testing::TempDir()) / "guests-survey.asc";
  std::ofstream out(file);
  out << "ncols 16\nnrows 16\nxllcorner -3\nyllcorner -3\ncellsize 1\nNODATA_value -9999\n";
  for (int row = 0; row < 16; ++row) {
    for (int column = 0; column < 16; ++column) out << "0 ";
    out << '\n';
  }
  out.close();
  site.ground.level.reset();
  site.ground.raster = file;
  for (const double margin : {2.0, 24.0}) {
    site.ground.margin = margin;
    EXPECT_TRUE(rests_on_a_guess(site)) << margin;
  }
  site.viewings[0].stand_off = 1.0;
  EXPECT_FALSE(rests_on_a_guess(site));
}

}  // namespace
}  // namespace hummock

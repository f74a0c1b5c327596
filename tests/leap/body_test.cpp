// The animal's body: where it can be, what it reaches, what it climbs. Yards with answers on paper.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "engine/leap/places/narrow_crest.h"
#include "engine/leap/rows/leap_json.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

template <class T>
Sourced<T> invented(T value) {
  Sourced<T> row;
  row.value = value;
  row.source = "invented for the test";
  return row;
}

// A species file that leaves every row of the body out.
void leave_body_out(Species& species) {
  species.crouch.reset();
  species.reach.reset();
  species.perch.reset();
  species.climbs_past_upright.reset();
  species.hangs.reset();
  species.swims.reset();
  species.leap_from_water.reset();
}

// A small climbing canid as the shipped ones are: no row of the body but those of the first format.
Species small_canid() {
  Species species = test::test_animal(1.0, 2.0);
  leave_body_out(species);
  species.grip.value = 0.10;
  species.stand_slope.value = 45.0 * geom::kDegree;
  species.climbs.value = {"mesh", "rock", "wood"};
  species.body.value = {0.55, 0.14, 0.30};
  species.least_opening.value = 0.06;
  return species;
}

double lower(const Result& r) {
  return r.escape_leap_m.value_or(r.bounded_below_m);
}

void overhang_all(Site& site, double length, double degrees) {
  for (Section& s : site.boundary.sections) s.overhang = Overhang{length, degrees * geom::kDegree};
}

// 2.44 m of mesh with 0.9 m of overhang at the angles of common practice, square and L-shaped, with
// a gate of 2.1 m: with every careful default it stands, whatever else the program has learnt.
TEST(Body, AStandardFenceStillStands) {
  for (const bool ell : {false, true}) {
    for (const double angle : {35.0, 40.0, 45.0}) {
      Site site = test::yard(10, 8, 2.44, SheetKind::mesh);
      site.species = small_canid();
      if (ell) {
        site.boundary.outline = {{0, 0}, {10, 0}, {10, 8}, {5, 8}, {5, 4}, {0, 4}};
        site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5};
      }
      overhang_all(site, 0.9, angle);
      test::add_gate(site, 0, 3.0, 1.0, 2.1);
      Settings settings;
      settings.required_margin = 1.3;
      const Result r = analyse(test::built(site), settings);
      EXPECT_TRUE(r.complete);
      EXPECT_FALSE(r.escape_leap_m.has_value())
          << angle << (ell ? " L" : " square") << ": " << *r.escape_leap_m << " " << r.how;
      EXPECT_GE(r.margin, 1.3);
      bool says_hangs = false;
      for (const std::string& n : r.notes) says_hangs = says_hangs || n.find("(hangs)") != n.npos;
      EXPECT_TRUE(says_hangs);
    }
  }
}

TEST(Body, AnOverhangIsClimbedWhereItIsAsGoodAsUpright) {
  Site site = test::yard(6, 5, 2.44, SheetKind::mesh);
  site.species = small_canid();
  overhang_all(site, 0.9, 58.0);
  EXPECT_FALSE(analyse(test::built(site)).escape_leap_m.has_value());
  overhang_all(site, 0.9, 62.0);
  EXPECT_LT(lower(analyse(test::built(site))), 0.01);
  overhang_all(site, 0.9, 89.0);
  EXPECT_LT(lower(analyse(test::built(site))), 0.01);
  overhang_all(site, 0.9, 40.0);
  site.species.hangs = invented(true);
  EXPECT_LT(lower(analyse(test::built(site))), 0.01);
}

TEST(Body, AHoldWithinReachOfAnEdgeIsPastIt) {
  Site site = test::yard(6, 5, 1.8, SheetKind::mesh);
  site.species = small_canid();
  for (const double length : {0.06, 0.3, 0.5}) {
    overhang_all(site, length, 0.0);
    EXPECT_LT(lower(analyse(test::built(site))), 0.01) << length;
  }
  // Longer than its body, or than the reach it is known to have: only the leap from the ground to
  // the tip is left, less its grip.
  overhang_all(site, 0.7, 0.0);
  EXPECT_NEAR(lower(analyse(test::built(site))), 1.7, 0.02);
  overhang_all(site, 0.06, 0.0);
  site.species.reach = invented(0.03);
  EXPECT_NEAR(lower(analyse(test::built(site))), 1.7, 0.02);
}

TEST(Body, ReachIsNeverAddedToALeap) {
  Site site = test::yard(6, 5, 1.5, SheetKind::solid);
  site.species.reach = invented(0.4);
  EXPECT_NEAR(lower(analyse(test::built(site))), 1.5 > 1.4 ? 1.4 : 1.5, 1e-6);  // as without
  site.boundary.sections[0].height = 1.2;
  EXPECT_NEAR(lower(analyse(test::built(site))), 1.2, 0.01);
  site.boundary.sections[0].height = 0.35;  // from its feet
  EXPECT_LT(lower(analyse(test::built(site))), 1e-9);
}

// Boxes flush with the top, or up to the least opening above it, are walked over.
TEST(Body, WhatLiesFlushWithATopIsWalkedOver) {
  for (const double above : {0.0, 0.02, 0.045}) {
    Site site = test::yard(4, 4, 1.6, SheetKind::solid);
    site.species.leap_height.value = 1.0;
    site.species.leap_distance.value = 2.0;
    test::split_sections(site);
    for (const int k : {1, 2, 3}) site.boundary.sections[static_cast<std::size_t>(k)].height = 4.0;
    test::add_box(site, "flush", {2.0, 0.3}, {4.0, 0.62, 1.6 + above});
    test::add_box(site, "step", {2.0, 1.0}, {0.6, 0.6, 0.9});
    const Result r = analyse(test::built(site));
    EXPECT_NEAR(lower(r), 0.9, 0.02) << above;
  }
}

// It walks down no bank that is steeper than it stands, but it is on it when it slides, and leaves
// from there: an animal of s = 3 loses less by the height than it gains by the distance. A ridge
// 2.5 m high along a fence of 2.2 m, z = 1.25 (1 + cos(π d/2)); the least effort over all of the
// bank, taken point by point, against that over what it can stand on alone.
TEST(Body, ABankTooSteepToStandOnIsSlidDownAndLeftFrom) {
  Site site = test::yard(5.0, 6.0, 2.2, SheetKind::solid);
  test::split_sections(site);
  for (const std::size_t side : {1U, 2U, 3U}) site.boundary.sections[side].height = 9.0;
  site.species = test::test_animal(1.5, 1.0);
  site.species.stand_slope.value = 40.0 * geom::kDegree;
  GroundForm ridge;
  ridge.kind = FormKind::ridge;
  ridge.path = {{-3, 2}, {8, 2}};
  ridge.radius = 2.0;
  ridge.height = 2.5;
  site.ground.forms.push_back(ridge);
  double anywhere = 1e9, standing = 1e9;
  for (double y = 0.01; y <= 2.0; y += 0.01) {
    const double turn = 0.5 * geom::kPi * (2.0 - y);
    const double e = effort(y, 2.2 - 1.25 * (1.0 + std::cos(turn)), 3.0);
    const double slope = std::atan(0.625 * geom::kPi * std::sin(turn));
    anywhere = std::min(anywhere, e);
    if (slope <= 40.0 * geom::kDegree) standing = std::min(standing, e);
  }
  ASSERT_GT(standing, anywhere + 0.1);
  const Result result = analyse(test::built(site));
  ASSERT_TRUE(result.escape_leap_m);
  EXPECT_LE(*result.escape_leap_m, anywhere + 1e-3);
  EXPECT_GE(*result.escape_leap_m + result.resolution_bound_m, anywhere - 0.02);
}

// A crest too steep to stand on its sides is a place along its top: a leaning trunk.
TEST(Body, ACrestIsAPlaceAtAnySlope) {
  for (const double lean : {52.0, 48.0}) {  // 38° and 42° above the level; it stands on 40°
    Site site = test::yard(10, 10, 2.5, SheetKind::solid);
    site.species = test::test_animal(1.0, 2.0);
    leave_body_out(site.species);
    Object& tree = test::add_tree(site, "fallen tree", {5, 4}, 4.0, {0.1, 0.1, 0.1}, 3.9);
    tree.crown.reset();
    tree.trunk_diameter = 0.4;
    tree.lean = lean * geom::kDegree;
    tree.turn = -90.0 * geom::kDegree;
    EXPECT_LT(lower(analyse(test::built(site))), 0.6) << lean;
    site.species.perch = invented(0.05);
    if (lean < 50.0) {
      EXPECT_GT(lower(analyse(test::built(site))), 1.0);
    }
  }
}

TEST(Body, AnUprightSheetsTopIsAPlace) {
  Site site = test::yard(6, 5, 1.5, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  leave_body_out(site.species);
  // A roofless hut's wall, drawn as a very thin box, is the nearest thing without a file.
  test::add_box(site, "screen", {3.0, 0.6}, {2.0, 0.004, 1.0});
  EXPECT_NEAR(lower(analyse(test::built(site))), 1.0, 0.02);
}

TEST(Body, ItCrouchesWhereItCannotStand) {
  Site site = test::yard(6, 5, 2.0, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  overhang_all(site, 0.6, 0.0);
  test::add_box(site, "crate", {3.0, 0.3}, {1.0, 0.56, 1.85});
  test::add_box(site, "step", {4.2, 1.5}, {0.6, 0.6, 0.95});
  const double standing = lower(analyse(test::built(site)));
  leave_body_out(site.species);
  const double crouched = lower(analyse(test::built(site)));
  EXPECT_LT(crouched, standing);
  EXPECT_NEAR(crouched, effort(std::hypot(0.4, 0.62), 0.9, 1.0), 0.03);  // from step to crate
}

TEST(Body, ItSwimsWhereNothingSaysItDoesNot) {
  Site site = test::yard(10, 4, 1.5, SheetKind::solid);
  test::split_sections(site);
  site.boundary.sections[1].height = 0.2;
  Water moat;
  moat.name = "moat";
  moat.outline = {{4, 0}, {7, 0}, {7, 4}, {4, 4}};
  moat.level = 0.3;
  site.waters.push_back(moat);
  site.leap_start = Vec2{2, 2};
  EXPECT_GT(lower(analyse(test::built(site))), 1.0);
  site.species.swims = invented(true);
  site.species.leap_from_water = invented(1.0);
  EXPECT_NEAR(lower(analyse(test::built(site))), 0.2, 0.03);
}

TEST(Body, AShortLeaperDropsAsAPlainThrowDoes) {
  Site site = test::yard(12, 12, 1.5, SheetKind::solid);
  site.species = test::test_animal(1.0, 1.0);
  test::split_sections(site);
  for (const int k : {1, 2, 3}) site.boundary.sections[static_cast<std::size_t>(k)].height = 9.0;
  const double tops[] = {0.25, 1.1, 1.95, 2.8, 3.65, 4.5};
  for (int k = 0; k < 6; ++k) {
    test::add_box(site, "s" + std::to_string(k), {5.0, 6.3 - 0.7 * k}, {0.6, 0.6, tops[k]});
  }
  const Result r = analyse(test::built(site));
  // The steps rise 0.85 m, 0.1 m apart; the drop of 3 m over 2.5 m is a little harder: e₁ = 0.4526
  // m of the 0.5 m that a level gap of 1 m is worth. Stretched alone it would be 1.415.
  ASSERT_TRUE(r.escape_leap_m.has_value());
  const double drop = 0.5 * (-3.0 + std::sqrt(9.0 + 6.25)) / 0.5;
  EXPECT_LT(effort(0.1, 0.85, 2.0), drop);
  EXPECT_NEAR(*r.escape_leap_m, drop, 0.01);
  const ObjectRow& top = r.objects.back();
  EXPECT_NEAR(top.effort_to_boundary_m.value(), effort(2.5, -3.0, 2.0), 0.03);
}

TEST(Body, AClosedRoofIsBoundedByTheLimitWhateverIsGained) {
  Site site = test::yard(6, 5, 3.0, SheetKind::solid);
  site.roof = Roof{};
  site.roof->above_fence = 0.0;
  test::add_box(site, "box", {3, 2.5}, {0.6, 0.6, 0.3});
  const Result r = analyse(test::built(site));
  EXPECT_FALSE(r.escape_leap_m.has_value());
  EXPECT_NEAR(r.margin, 2.0, 1e-9);
}

TEST(Body, WaysOutCountWhatIsClearedFromTheGround) {
  Site site = test::yard(6, 5, 0.5, SheetKind::solid);
  const Model model = test::built(site);
  Figures figures;
  add_figures(analyse(model), model, figures);
  EXPECT_GE(figures.at("leap.ways_out").value.value(), 1.0);
}

TEST(Body, AStoneFromWhichItLeavesThroughATreeSaysSo) {
  Site site = test::yard(8, 7, 2.0, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  test::add_box(site, "stone", {3.0, 2.2}, {0.6, 0.6, 0.8});
  test::add_box(site, "tree", {3.0, 1.4}, {0.6, 0.6, 1.5});  // 0.2 m on
  const Result r = analyse(test::built(site));
  const ObjectRow& stone = r.objects[0];
  ASSERT_TRUE(stone.effort_out_m.has_value());
  const double through = std::max(effort(0.2, 0.7, 1.0), effort(1.1, 0.5, 1.0));
  EXPECT_NEAR(*stone.effort_out_m, through, 0.05);
  EXPECT_GT(stone.effort_to_boundary_m.value_or(9.0), *stone.effort_out_m + 0.1);
}

TEST(Body, SnowLiesOnThingsToo) {
  Site site = test::yard(10, 10, 2.2, SheetKind::solid);
  site.species = test::test_animal(1.0, 2.0);
  test::add_box(site, "b", {5, 1.0}, {1, 1, 0.9});
  const Result r = analyse(test::built(site, {.snow = 0.4}));
  // Gained as it is, half a metre above the snow; left from 1.3 m, 0.5 m off the wall of 2.2 m.
  EXPECT_NEAR(lower(r), effort(0.5, 0.9, 1.0), 0.03);
}

// Tops as wide as the perch are places, narrower ones are none: widths on paper, at every turn.
constexpr double kPerch = 0.13, kTop = 0.8;
constexpr double kSlope = 40.0 * geom::kDegree;

// Some point of a top at (3, 3), `off` along the turn.
bool bears(const Site& site, double turn, double off) {
  const Model model = test::built(site);
  return wide_enough(model, {3.0 + off * std::cos(turn), 3.0 + off * std::sin(turn), kTop}, kPerch,
                     kSlope);
}

TEST(NarrowCrest, ARailBearsFromThePerchOnAtEveryTurn) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> turns(0.0, geom::kPi), across(-0.45, 0.45);
  for (int k = 0; k < 60; ++k) {
    const double turn = turns(random);
    for (const double share : {0.5, 0.75, 0.95, 1.0, 1.2, 3.0}) {
      Site site = test::yard(6, 6, 2.0);
      test::add_box(site, "rail", {3, 3}, {2.0, share * kPerch, kTop}).turn = turn;
      const double off = across(random) * share * kPerch;
      EXPECT_EQ(bears(site, turn + 0.5 * geom::kPi, off), share >= 1.0)
          << share << " of the perch, turned " << turn / geom::kDegree << ", " << off << " aside";
    }
  }
}

// Posts are drawn with corners: their least width is some per cent below the diameter.
TEST(NarrowCrest, ARoundTopBearsWhereItIsAsWideThroughItsMiddle) {
  for (const double off : {0.0, 0.3, 0.45}) {
    Site narrow = test::yard(6, 6, 2.0), wide = narrow;
    test::add_post(narrow, "post", {3, 3}, 0.9 * kPerch, kTop);
    test::add_post(wide, "post", {3, 3}, 1.1 * kPerch, kTop);
    EXPECT_FALSE(bears(narrow, 0.4, off * 0.9 * kPerch)) << off;
    EXPECT_TRUE(bears(wide, 0.4, off * kPerch)) << off;
  }
}

// Of a log the whole back counts, from any point of it that is stood on.
TEST(NarrowCrest, ALogBearsWhereItIsAsThickAsThePerch) {
  for (const double share : {0.3, 0.5, 0.75, 0.9, 1.1, 2.0}) {
    Site site = test::yard(6, 6, 2.0);
    const double thick = share * kPerch;
    test::add_log(site, "log", {3, 3}, 2.0, thick).z = 0.7;
    const Model model = test::built(site);
    for (const double angle : {-0.6, 0.0, 0.35, 0.66}) {
      const Vec3 p{3.0, 3.0 + 0.5 * thick * std::sin(angle),
                   0.7 + 0.5 * thick * (1.0 + std::cos(angle))};
      EXPECT_EQ(wide_enough(model, p, kPerch, kSlope), share > 1.0) << share << " " << angle;
    }
  }
}

TEST(NarrowCrest, SlatsBearTogetherAndARailBearsBesideAWall) {
  Site bench = test::yard(6, 6, 2.0);
  test::add_box(bench, "front", {3.0, 3.0}, {2.0, 0.05, kTop});
  test::add_box(bench, "back", {3.0, 3.1}, {2.0, 0.05, kTop});
  EXPECT_TRUE(bears(bench, 0.0, 0.0));
  Site beside = test::yard(6, 6, 2.0);
  test::add_box(beside, "rail", {3.0, 3.0}, {2.0, 0.05, kTop});
  EXPECT_FALSE(bears(beside, 0.0, 0.0));
  test::add_box(beside, "wall", {3.0, 3.1}, {2.0, 0.1, 2.0});
  EXPECT_TRUE(bears(beside, 0.0, 0.0));
}

}  // namespace
}  // namespace hummock::leap

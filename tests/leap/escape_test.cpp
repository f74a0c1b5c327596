// Closed forms: sites whose escape demand can be worked out on paper.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

// The true demand lies between the answer and the answer plus its own bound.
void expect_required_leap(const Result& result, double truth, double widest_bound) {
  ASSERT_TRUE(result.escape_leap_m.has_value());
  EXPECT_LE(*result.escape_leap_m, truth + 1e-3);
  EXPECT_GE(*result.escape_leap_m + result.resolution_bound_m, truth - 5e-3);
  EXPECT_LE(result.resolution_bound_m, widest_bound);
}

TEST(Escape, FromBareGroundThePlainWallsHeightIsTheLeap) {
  Site site = test::yard(6, 5, 1.2, SheetKind::solid);
  const Result result = analyse(test::built(site));
  expect_required_leap(result, 1.2, 0.02);
  EXPECT_EQ(result.over, "fence");
  EXPECT_EQ(result.how, "over the barrier's top");
  ASSERT_EQ(result.route.size(), 1U);
  EXPECT_EQ(result.route[0].kind, StepKind::leap);
  EXPECT_EQ(result.route[0].from_thing, "the ground");
  EXPECT_NEAR(result.margin, 1.2 / 0.7, 0.02);
  EXPECT_NEAR(result.living_area_m2, 30.0, 0.3);
}

TEST(Escape, ABoxAtADistanceFromAPlainWallIsWorthItsEffort) {
  Site site = test::yard(6, 5, 1.6, SheetKind::solid);
  test::add_box(site, "box", {3.0, 0.9}, {0.8, 0.8, 0.6});  // its near face 0.5 m from the south
  const Result result = analyse(test::built(site));
  expect_required_leap(result, effort(0.5, 1.0, 1.0), 0.05);
  ASSERT_EQ(result.objects.size(), 1U);
  const ObjectRow& row = result.objects[0];
  EXPECT_EQ(row.name, "box");
  EXPECT_NEAR(row.top_m, 0.6, 1e-3);
  EXPECT_TRUE(row.reachable);
  EXPECT_NEAR(row.required_leap_m, 0.6, 0.01);
  ASSERT_TRUE(row.effort_to_boundary_m.has_value());
  EXPECT_NEAR(*row.effort_to_boundary_m, effort(0.5, 1.0, 1.0), 0.03);
  EXPECT_EQ(row.verdict, Verdict::clear);
}

// An overhang's end cut square against a taller sheet at a corner lies flush with it; it was once
// taken for a way up. The glass is out of reach, so there is no way out at all.
TEST(Escape, AnOverhangsEndAgainstATallerGlassIsNoWayOut) {
  Site site = test::yard(4, 4, 2.0);
  test::split_sections(site);
  site.species.leap_height.value = 1.0;
  site.species.climbs.value = {"mesh"};
  for (std::size_t k : {0U, 1U, 3U}) {
    site.boundary.sections[k].overhang = Overhang{0.5, 30.0 * geom::kDegree};
  }
  Section& glass = site.boundary.sections[2];
  glass.kind = SheetKind::glass;
  glass.aperture = 0.0;
  glass.height = 4.0;
  const Result result = analyse(test::built(site));
  EXPECT_FALSE(result.escape_leap_m.has_value())
      << *result.escape_leap_m << " m over " << result.over;
  glass.height = 1.0;  // and a low one is a way out as ever
  EXPECT_TRUE(analyse(test::built(site)).escape_leap_m.has_value());
}

TEST(Escape, TwoBoxesAsStairsLeapTheLargerStep) {
  Site site = test::yard(6, 5, 1.8, SheetKind::solid);
  test::add_box(site, "lower", {3.0, 1.65}, {0.8, 0.8, 0.5});
  test::add_box(site, "upper", {3.0, 0.75},
                {0.8, 0.8, 1.25});  // 0.1 m from the lower, 0.35 to wall
  const Result result = analyse(test::built(site));
  const double steps[] = {0.5, effort(0.1, 0.75, 1.0), effort(0.35, 0.55, 1.0)};
  expect_required_leap(result, steps[1], 0.05);
  EXPECT_GT(steps[1], steps[2]);
  // Ground, lower box, walk, upper box, walk, fence.
  std::vector<std::string> leaps;
  for (const Step& s : result.route) {
    if (s.kind == StepKind::leap) leaps.push_back(s.to_thing);
  }
  EXPECT_EQ(leaps, (std::vector<std::string>{"lower", "upper", "fence"}));
}

// The raised cosine of the site file: least effort over its whole flank, found on a fine line.
TEST(Escape, AMoundBesideTheFenceIsWorthItsBestSpot) {
  const double fence = 1.4, height = 0.7, radius = 1.5, away = 1.2;
  Site site = test::yard(6, 5, fence, SheetKind::solid);
  site.ground.cell = 0.05;
  test::add_mound(site, {3.0, away}, radius, height);
  const Model model = test::built(site);
  // The fence stands on the mound's foot: its top follows the ground at its posts.
  double truth = 1e9;
  for (const Panel& panel : model.panels) {
    if (panel.edge != 0) continue;
    for (int k = 0; k <= 1000; ++k) {
      const double t = k / 1000.0;
      const geom::Vec2 b = lerp(panel.a, panel.b, t);
      const double top = panel.top_a + t * (panel.top_b - panel.top_a);
      for (int i = 0; i <= 400; ++i) {
        const geom::Vec2 p{b.x, 3.0 * i / 400.0};
        truth = std::min(truth, effort(p.y, top - geom::height_at(model.ground, p), 1.0));
      }
    }
  }
  expect_required_leap(analyse(model), truth, 0.12);
}

// On ground falling at β towards the fence the best spot is where the envelope of the parabola of
// safety touches the slope: tan²β/s² = (F − E)/E, so E = F/(1 + tan²β/s²); F cos²β for s = 1.
TEST(Escape, AFenceAtTheFootOfASlopeIsLowerThanItsHeight) {
  for (const double distance : {1.4, 1.0}) {
    Site site = test::yard(8, 8, 1.0, SheetKind::solid);
    site.species = test::test_animal(0.7, distance);
    const double beta = 25.0 * geom::kDegree;
    test::add_slope(site, {4.0, 4.0}, beta, geom::kPi);  // down to the south
    const double s = 2.0 * 0.7 / distance;
    const double truth = 1.0 / (1.0 + std::pow(std::tan(beta) / s, 2));
    Settings settings;
    settings.resolution = 0.05;
    expect_required_leap(analyse(test::built(site), settings), truth, 0.15);
  }
}

TEST(Escape, AnOverhangCountsForWhatItTrulyStops) {
  Site plain = test::yard(6, 5, 1.2, SheetKind::solid);
  Site hung = plain;
  const double length = 0.25;
  const double angle = 40.0 * geom::kDegree;
  hung.boundary.sections[0].overhang = Overhang{length, angle};
  const Result without = analyse(test::built(plain));
  const Result with = analyse(test::built(hung));
  expect_required_leap(without, 1.2, 0.02);
  // Straight up past the tip: the tip's height.
  expect_required_leap(with, 1.2 + length * std::sin(angle), 0.03);
  EXPECT_EQ(with.how, "over the overhang");
}

// From a box under the overhang the least arc to the fence's top is blocked by the panel; the true
// answer is the effort round its tip.
TEST(Escape, FromABoxUnderAnOverhangTheWayIsRoundTheTip) {
  Site site = test::yard(6, 5, 1.4, SheetKind::solid);
  const double length = 0.5;
  const double angle = 30.0 * geom::kDegree;
  test::add_box(site, "box", {3.0, 0.9 + 0.2}, {0.8, 0.8, 0.5});  // near face 0.7 m off
  const Result without = analyse(test::built(site));
  site.boundary.sections[0].overhang = Overhang{length, angle};
  const Result with = analyse(test::built(site));
  expect_required_leap(without, effort(0.7, 0.9, 1.0), 0.05);
  const double tip = 0.7 - length * std::cos(angle);
  expect_required_leap(with, effort(tip, 0.9 + length * std::sin(angle), 1.0), 0.05);
  EXPECT_GT(*with.escape_leap_m, *without.escape_leap_m);
  ASSERT_TRUE(with.objects[0].effort_to_overhang_tip_m.has_value());
  EXPECT_NEAR(*with.objects[0].effort_to_overhang_tip_m, *with.objects[0].effort_to_boundary_m,
              1e-9);
}

TEST(Escape, AClosedRoofLeavesNoWayOutAndAHoleInItIsOne) {
  Site site = test::yard(6, 5, 1.0, SheetKind::mesh);
  Roof roof;
  roof.above_fence = 0.0;
  site.roof = roof;
  const Result closed = analyse(test::built(site));
  EXPECT_FALSE(closed.escape_leap_m.has_value());
  EXPECT_NEAR(closed.bounded_below_m, 1.4, 1e-9);
  EXPECT_NEAR(closed.margin, 2.0, 1e-9);
  // A roof of its own outline, 1.2 m up, over all but a strip along the west, whose fence is tall.
  test::split_sections(site);
  site.boundary.sections[3].height = 2.5;
  for (int k : {0, 1, 2}) site.boundary.sections[static_cast<std::size_t>(k)].height = 1.2;
  site.roof = Roof{};
  site.roof->height = 1.2;
  site.roof->outline = Polygon{{1, 0}, {6, 0}, {6, 5}, {1, 5}};
  const Model model = test::built(site);
  const Result open = analyse(model);
  expect_required_leap(open, 1.2, 0.02);
  EXPECT_TRUE(open.how == "through an opening in the roof" || open.over != "edge 3");
}

TEST(Escape, ARoofAboveTheFenceLeavesTheGapBetween) {
  Site site = test::yard(6, 5, 1.0, SheetKind::mesh);
  site.roof = Roof{};
  site.roof->height = 1.3;
  expect_required_leap(analyse(test::built(site)), 1.0, 0.02);
  site.roof->height = 1.03;  // less than its least opening: for the openings check
  EXPECT_FALSE(analyse(test::built(site)).escape_leap_m.has_value());
}

TEST(Escape, GripIsTakenOffTheRise) {
  Site site = test::yard(6, 5, 1.2, SheetKind::solid);
  site.species.grip.value = 0.15;
  expect_required_leap(analyse(test::built(site)), 1.05, 0.02);
}

TEST(Escape, AMeshFenceIsClimbedByWhatClimbsMeshUnlessAnOverhangStopsIt) {
  Site site = test::yard(6, 5, 1.6, SheetKind::mesh);
  site.species.climbs.value = {"mesh"};
  const Result climbed = analyse(test::built(site));
  expect_required_leap(climbed, 0.0, 0.06);
  site.boundary.sections[0].overhang = Overhang{0.5, 30.0 * geom::kDegree};
  // Without a leap from the face only the ground remains: beyond the limit of 1.4 m.
  const Result stopped = analyse(test::built(site));
  EXPECT_FALSE(stopped.escape_leap_m.has_value());
  // With a share of its leap it goes from the face round the tip.
  site.species.cling_leap.value = 0.6;
  const double x = 0.5 * std::cos(30.0 * geom::kDegree);
  const double z = 0.5 * std::sin(30.0 * geom::kDegree);
  expect_required_leap(analyse(test::built(site)), effort(x, z, 1.0) / 0.6, 0.12);
}

TEST(Escape, AMoatIsCrossedAtTheWidthItHas) {
  Site site = test::yard(10, 4, 0.5, SheetKind::solid);
  Water moat;
  moat.name = "moat";
  moat.outline = {{4, 0}, {5, 0}, {5, 4}, {4, 4}};
  moat.level = 0.3;
  site.waters.push_back(moat);
  // All of the ground lives by default; from a start only its side of the moat.
  site.boundary.sections[0].edges = {0, 2, 3};
  Section low = site.boundary.sections[0];
  low.name = "low";
  low.edges = {1};
  low.height = 0.2;
  for (Section* s : {&site.boundary.sections[0]}) s->height = 1.5;
  site.boundary.sections.push_back(low);
  const Result anywhere = analyse(test::built(site));
  expect_required_leap(anywhere, 0.2, 0.02);
  site.leap_start = Vec2{2, 2};
  const Result island = analyse(test::built(site));
  expect_required_leap(island, effort(1.0, 0.0, 1.0), 0.06);  // 0.5: the leap over the moat
  EXPECT_EQ(island.over, "low");
}

TEST(Escape, NoLivingGroundAndAStartOutsideAreRefused) {
  Site site = test::yard(6, 5, 1.2);
  site.leap_start = Vec2{-1.0, 2.0};
  EXPECT_THROW(analyse(test::built(site)), InputError);
  site.leap_start.reset();
  Water flood;
  flood.name = "flood";
  flood.outline = {{-1, -1}, {7, -1}, {7, 6}, {-1, 6}};
  flood.level = 1.0;
  site.waters.push_back(flood);
  EXPECT_THROW(analyse(test::built(site)), InputError);
}

TEST(Escape, ALeapOfNothingOrLessIsRefusedAndAnAbsurdOneNoted) {
  for (const double bad : {0.0, -1.0, std::nan("")}) {
    Site site = test::yard(6, 5, 1.2);
    const Model model = test::built(site);
    Model wrong = model;
    wrong.site.species.leap_distance.value = bad;
    EXPECT_THROW(analyse(wrong), InputError);
    wrong = model;
    wrong.site.species.leap_height.value = bad;
    EXPECT_THROW(analyse(wrong), InputError);
  }
  Site site = test::yard(6, 5, 1.2);
  site.species.leap_distance.value = 30.0;
  const Result result = analyse(test::built(site));
  ASSERT_FALSE(result.notes.empty());
  EXPECT_NE(result.notes[0].find("beyond any animal"), std::string::npos);
}

TEST(Escape, SnowTakesItsDepthOffTheFenceAndGrowthReachesOverIt) {
  Site site = test::yard(6, 5, 1.2, SheetKind::solid);
  expect_required_leap(analyse(test::built(site, {.snow = 0.3})), 0.9, 0.02);
  site.species.climbs.value = {"bark"};
  test::add_tree(site, "tree", {3, 1.5}, 2.0, {2.0, 2.0, 1.5}, 0.9);
  const Result young = analyse(test::built(site));
  const Result grown = analyse(test::built(site, {.growth = 0.8}));
  ASSERT_TRUE(young.escape_leap_m && grown.escape_leap_m);
  EXPECT_GT(*young.escape_leap_m, 0.03);
  EXPECT_LT(*grown.escape_leap_m, 0.01);  // its crown hangs over the fence
}

}  // namespace
}  // namespace hummock::leap

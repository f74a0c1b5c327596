// Moving or lowering a thing by what the row says, and checking again.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/leap/leap.h"
#include "engine/leap/physics/effort.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

const ObjectRow& row_of(const Result& result, const std::string& name) {
  for (const ObjectRow& row : result.objects) {
    if (row.name == name) return row;
  }
  throw std::runtime_error("no row " + name);
}

double effort_out(const ObjectRow& row) {
  return row.effort_to_boundary_m.value_or(1e9);
}

struct Case {
  const char* what;
  Site site;
};

std::vector<Case> offenders() {
  std::vector<Case> cases;
  Site box = test::yard(8, 7, 1.3, SheetKind::solid);
  test::add_box(box, "it", {3.0, 0.7}, {0.8, 0.8, 0.68});
  cases.push_back({"a box by a wall", box});
  Site corner = box;
  corner.objects[0].at = {0.8, 0.8};
  corner.objects[0].turn = 0.4;
  cases.push_back({"a turned box in a corner", corner});
  Site hung = box;
  hung.boundary.sections[0].overhang = Overhang{0.4, 0.5};
  hung.objects[0].at = {3.0, 1.3};
  hung.boundary.sections[0].height = 1.0;
  cases.push_back({"under an overhang", hung});
  Site boulder = test::yard(8, 7, 1.3, SheetKind::solid);
  test::add_boulder(boulder, "it", {3.0, 0.75}, {1.2, 1.0, 1.0}, 5).climbable = true;
  cases.push_back({"a climbed boulder", boulder});
  Site slope = box;
  test::add_slope(slope, {4.0, 3.0}, 8.0 * geom::kDegree, geom::kPi);
  cases.push_back({"on ground that rises inward", slope});
  return cases;
}

TEST(Remedies, MovedAsItSaysTheThingMeetsTheBriefAndNotMuchSooner) {
  for (const double margin : {1.0, 1.15}) {
    for (Case& c : offenders()) {
      SCOPED_TRACE(std::string(c.what) + ", margin " + std::to_string(margin));
      Settings settings;
      settings.required_margin = margin;
      const double asked = margin * c.site.species.leap_height.value;
      const ObjectRow before = row_of(analyse(test::built(c.site), settings), "it");
      EXPECT_EQ(before.verdict, Verdict::a_way_out);
      EXPECT_LT(effort_out(before), asked);
      ASSERT_TRUE(before.move_m.has_value());
      const Vec2 from = c.site.objects[0].at;
      c.site.objects[0].at = from + before.move_towards * *before.move_m;
      const ObjectRow after = row_of(analyse(test::built(c.site), settings), "it");
      EXPECT_GE(effort_out(after), asked);
      EXPECT_NE(after.verdict, Verdict::a_way_out);
      EXPECT_FALSE(after.move_m.has_value());
      if (std::string(c.what) == "a box by a wall") {
        c.site.objects[0].at = from + before.move_towards * (*before.move_m - 0.03);
        EXPECT_LT(effort_out(row_of(analyse(test::built(c.site), settings), "it")), asked);
      }
    }
  }
}

// In closed form: a box z below the wall's top must stand where e(r, z) = E*, r = 2√(E*(E* − z))/s.
TEST(Remedies, TheLeastShiftOfABoxIsTheClosedForm) {
  Site site = test::yard(8, 7, 1.3, SheetKind::solid);
  test::add_box(site, "it", {3.0, 0.6}, {0.8, 0.8, 0.68});  // 0.2 m off, 0.62 m below the top
  const double needed = envelope_distance(0.62, 0.7, 1.0);
  const ObjectRow row = row_of(analyse(test::built(site)), "it");
  ASSERT_TRUE(row.move_m.has_value());
  EXPECT_GE(*row.move_m, needed - 0.2);
  EXPECT_NEAR(*row.move_m, needed - 0.2, 0.03);
  EXPECT_NEAR(row.move_towards.y, 1.0, 1e-9);
}

TEST(Remedies, LoweredAsItSaysTheBoxMeetsTheBriefAndNotMuchSooner) {
  for (const double margin : {1.0, 1.15}) {
    for (Case& c : offenders()) {
      if (c.site.objects[0].kind != ObjectKind::box) continue;
      SCOPED_TRACE(std::string(c.what) + ", margin " + std::to_string(margin));
      Settings settings;
      settings.required_margin = margin;
      const double asked = margin * c.site.species.leap_height.value;
      const ObjectRow before = row_of(analyse(test::built(c.site), settings), "it");
      ASSERT_TRUE(before.lower_m.has_value());
      const double height = c.site.objects[0].size.z;
      c.site.objects[0].size.z = height - *before.lower_m;
      EXPECT_GE(effort_out(row_of(analyse(test::built(c.site), settings), "it")), asked);
      c.site.objects[0].size.z = height - *before.lower_m + 0.03;
      EXPECT_LT(effort_out(row_of(analyse(test::built(c.site), settings), "it")), asked);
    }
  }
}

// Whatever is advised, done: the site is solved afresh and the brief met, with nothing else worse.
TEST(Remedies, WhatIsAdvisedHoldsWhereAnotherThingWouldMakeAStep) {
  Site site = test::yard(8, 7, 1.3, SheetKind::solid);
  test::add_box(site, "it", {3.0, 0.7}, {0.8, 0.8, 0.68});
  // A tall box by the fence that nothing gains yet; beside it "it" would be the step to it.
  test::add_box(site, "tall", {3.0, 2.6}, {0.8, 0.8, 1.25});
  test::add_box(site, "shelf", {5.4, 0.9}, {0.8, 0.8, 1.2});
  Settings settings;
  settings.required_margin = 1.15;
  const Result before = analyse(test::built(site), settings);
  const ObjectRow row = row_of(before, "it");
  EXPECT_TRUE(row.remedy_sought);
  for (const Shift& shift : row.remedies) {
    EXPECT_TRUE(shift.proven);
    Site changed = site;
    if (shift.kind == Shift::Kind::move) {
      const double b = shift.bearing_deg * geom::kDegree;
      changed.objects[0].at = changed.objects[0].at + Vec2{std::sin(b), std::cos(b)} * shift.by_m;
    } else {
      changed.objects[0].z -= shift.by_m;
    }
    const Result after = analyse(test::built(changed), settings);
    const ObjectRow now = row_of(after, "it");
    EXPECT_GE(std::max(now.required_leap_m, now.effort_to_boundary_m.value_or(1e9)),
              1.15 * 0.7 - 1e-9);
    for (const char* other : {"tall", "shelf"}) {
      const Verdict verdict = row_of(after, other).verdict;
      const bool good = verdict == Verdict::clear || verdict == Verdict::cannot_be_reached;
      EXPECT_TRUE(good || verdict == row_of(before, other).verdict) << other;
    }
  }
}

// A step under a tall box by the fence: what is proven for it leaves no way over either short of
// the brief. Where the fence is too low elsewhere it mends its share only, and says so.
TEST(Remedies, WhatIsProvenHoldsForTheWholeWayOverTheThing) {
  for (const bool low : {false, true}) {
    SCOPED_TRACE(low);
    Site site = test::yard(8, 7, 2.4, SheetKind::solid);
    test::split_sections(site);
    if (low) site.boundary.sections[2].height = 1.1;
    site.species = test::test_animal(1.0, 2.0);
    test::add_box(site, "upper", {3.0, 0.5}, {0.8, 0.8, 1.7});
    test::add_box(site, "it", {3.0, 1.35}, {0.8, 0.8, 0.9});
    Settings settings;
    settings.required_margin = 1.2;
    const ObjectRow row = row_of(analyse(test::built(site), settings), "it");
    EXPECT_EQ(row.verdict, Verdict::a_way_out);
    ASSERT_TRUE(row.lower_m.has_value());
    for (const Shift& shift : row.remedies) EXPECT_EQ(shift.share_only, low);
    site.objects[1].z -= *row.lower_m;
    const Result after = analyse(test::built(site), settings);
    EXPECT_GE(after.escape_leap_m.value_or(after.bounded_below_m), (low ? 1.1 : 1.2) - 2e-3);
  }
}

TEST(Remedies, NoMoveEndsInAHouseOrAnotherThing) {
  Site site = test::yard(3.2, 3.0, 1.3, SheetKind::solid);
  test::add_box(site, "it", {1.6, 0.7}, {0.8, 0.8, 0.68});
  House house;
  house.name = "house";
  house.outline = {{0.2, 1.2}, {3.0, 1.2}, {3.0, 2.9}, {0.2, 2.9}};
  house.height = 2.2;
  site.houses.push_back(house);
  const ObjectRow row = row_of(analyse(test::built(site)), "it");
  EXPECT_TRUE(row.remedy_sought);
  EXPECT_FALSE(row.move_m.has_value())
      << *row.move_m << " m to " << row.move_towards.x << ", " << row.move_towards.y;
}

TEST(Remedies, AThingThatIsClearIsLeftAlone) {
  Site site = test::yard(8, 7, 1.6, SheetKind::solid);
  test::add_box(site, "far", {4.0, 3.5}, {0.8, 0.8, 0.5});
  const ObjectRow row = row_of(analyse(test::built(site)), "far");
  EXPECT_EQ(row.verdict, Verdict::clear);
  EXPECT_FALSE(row.move_m || row.lower_m);
}

TEST(Remedies, TheVerdictsAreTheFourInWords) {
  Site site = test::yard(10, 9, 1.3, SheetKind::solid);
  test::add_box(site, "out", {3.0, 0.7}, {0.8, 0.8, 0.68});
  test::add_box(site, "tight", {6.0, 0.97}, {0.8, 0.8, 0.67});  // 0.57 m off: e just above H
  test::add_box(site, "tall", {8.0, 5.0}, {0.8, 0.8, 1.2});
  test::add_box(site, "clear", {4.0, 5.0}, {0.8, 0.8, 0.4});
  const Result r = analyse(test::built(site));
  EXPECT_STREQ(to_string(row_of(r, "out").verdict), "a way out");
  EXPECT_STREQ(to_string(row_of(r, "tight").verdict), "tight");
  EXPECT_STREQ(to_string(row_of(r, "tall").verdict), "cannot be gained");
  EXPECT_STREQ(to_string(row_of(r, "clear").verdict), "clear");
}

// A leap lifts the feet: over them stand the 0.2 m of the body.
TEST(Roof, TheGapOverAFullLeapIsTheClosedForm) {
  Site site = test::yard(6, 5, 1.5, SheetKind::mesh);
  site.roof = Roof{};
  site.roof->height = 1.6;
  test::add_box(site, "box", {3.0, 2.5}, {0.8, 0.8, 0.5});
  const Result r = analyse(test::built(site));
  ASSERT_TRUE(r.roof_clearance_m.has_value());
  EXPECT_NEAR(*r.roof_clearance_m, 1.6 - 0.5 - 0.7 - 0.2, 0.01);  // straight up from the box
  EXPECT_FALSE(r.roof_strike_at.has_value());
  const ObjectRow& row = row_of(r, "box");
  EXPECT_NEAR(row.roof_clearance_m.value(), 0.2, 0.01);
  EXPECT_NEAR(row.effort_to_roof_m.value(), 1.1, 0.01);
  site.roof->height = 1.1;
  site.boundary.sections[0].height = 1.0;
  const Result low = analyse(test::built(site));
  EXPECT_NEAR(*low.roof_clearance_m, -0.3, 0.01);
  ASSERT_TRUE(low.roof_strike_at.has_value());
  EXPECT_NEAR(low.roof_strike_at->z, 1.1, 1e-6);
}

}  // namespace
}  // namespace hummock::leap

#include "engine/sight/sight.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/sight/sight_json.h"
#include "engine/sight/usable_nodes.h"
#include "engine/sight/viewing_eyes.h"
#include "tests/sight/watched_yard.h"
#include "tests/support/surfaces.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

using test::paned;
using test::watched;

sight::Result seen(const Site& site, double eye_spacing = 100.0, double seen_at = 0.1) {
  sight::Settings settings;
  settings.eye_spacing = eye_spacing;
  settings.seen_at = seen_at;
  return sight::analyse(test::built(site), settings);
}

double hidden_by(const sight::Result& r, const std::string& thing) {
  for (const sight::ScreenRow& s : r.screens)
    if (s.thing == thing) return s.hides_m2;
  return 0.0;
}

TEST(Sight, EyesAtBothEndsSeeTheWedgesTheirWindowOpens) {
  // The eyes 1 m before the ends of a window 2 m wide, however wide their spacing. At y they see
  // 2 (1 + y) to their own side's edge and beyond: together 2 + 4y wide, cut at 10 m: 12 + 60.
  const sight::Result r = seen(paned(4.0, 2.0, 1.0));
  EXPECT_NEAR(r.usable_area_m2, 80.0, 0.5);
  EXPECT_NEAR(r.seen_share * r.usable_area_m2, 72.0, 0.7);  // edges of 9 m × half a cell
  ASSERT_EQ(r.views.size(), 1U);
  EXPECT_EQ(r.views[0].eyes, 2);
  EXPECT_NEAR(r.views[0].seen_share, r.seen_share, 1e-12);
}

TEST(Sight, EyesBetweenTheEndsOpenNoWiderWedge) {
  const Site site = paned(4.0, 2.0, 1.0);
  const sight::Result ends = seen(site), many = seen(site, 0.5);
  EXPECT_EQ(many.views[0].eyes, 5);  // both ends of the window and every half metre between
  EXPECT_NEAR(many.seen_share, ends.seen_share, 1e-12);
}

TEST(Sight, ANarrowPlaceIsLookedThroughFromBothItsEnds) {
  // 0.4 m wide: a post of 0.3 m before its middle hides nothing that both ends see round.
  Site site = paned(4.8, 0.4, 1.0);
  const double bare = seen(site, 0.5).unseen_area_m2;
  test::add_box(site, "post", {5.0, 0.5}, {0.3, 0.05, 3.0});
  const double behind = seen(site, 0.5).unseen_area_m2 - bare;
  // From the middle alone the shadow at 8 m were 0.3 · 9 / 1.5 = 1.8 m wide and 8 m² in all.
  EXPECT_LT(behind, 4.0);
}

TEST(Sight, BehindABoxTheHiddenStripIsSimilarTriangles) {
  // A box right across, 0.6 m high, its back edge 3.2 m in. From the eye 1.5 m up and 0.5 m out the
  // line over that edge comes down to 0.2 m at 3.7 · 1.3/0.9 = 5.344 m from the eye: 4.844 m in.
  Site site = watched(SheetKind::glass, 0.0, 10.0);
  test::add_box(site, "long box", {5.0, 3.1}, {9.998, 0.2, 0.6});
  const sight::Result r = seen(site, 0.5);
  const double strip = 3.7 * 1.3 / 0.9 - 0.5 - 3.2;
  EXPECT_NEAR(r.unseen_area_m2, 10.0 * strip, 10.0 * 0.1);
  EXPECT_NEAR(hidden_by(r, "long box"), 10.0 * strip, 10.0 * 0.1 + 0.5);
  ASSERT_FALSE(r.hidden.empty());
  EXPECT_TRUE(r.hidden[0].room_to_lie);
  EXPECT_NEAR(r.hidden[0].centre.y, 3.2 + strip / 2.0, 0.15);
}

TEST(Sight, AMoundHidesWhatItsCrestCoversAndIsNamedGround) {
  Site site = watched(SheetKind::glass, 0.0, 10.0);
  GroundForm ridge;
  ridge.kind = FormKind::ridge;
  ridge.path = {{-3.0, 4.0}, {13.0, 4.0}};
  ridge.radius = 1.0;
  ridge.height = 0.8;
  site.ground.forms.push_back(ridge);
  site.leap_start = Vec2{5.0, 7.0};  // behind it, and it does not come over
  const sight::Result r = seen(site, 0.5);
  EXPECT_GT(hidden_by(r, "ground"), 5.0);
  EXPECT_NEAR(hidden_by(r, "ground"), r.unseen_area_m2, 0.02 * r.unseen_area_m2);
}

TEST(Sight, ASolidFenceIsSeenOverOnlyAndALowSillDoesTheSame) {
  // Over 1 m of wall from 1.52 m up and 0.5 m out: 0.2 m high targets from 0.5 · 1.32/0.52 − 0.5 =
  // 0.769 m in. A glass front with its sill at 1 m lets the same lines through.
  Site wall = watched(SheetKind::solid, 0.0, 10.0, 0.5, 1.52);
  wall.boundary.sections[0].height = 1.0;
  const sight::Result over = seen(wall, 0.5);
  EXPECT_NEAR(over.unseen_area_m2, 7.69, 0.5);
  EXPECT_FALSE(over.views[0].note.empty());
  Site sill = watched(SheetKind::glass, 0.0, 10.0, 0.5, 1.52);
  sill.viewings[0].sill = 1.0;
  EXPECT_NEAR(seen(sill, 0.5).unseen_area_m2, over.unseen_area_m2, 0.3);
  Site shut = watched(SheetKind::solid, 0.0, 10.0);  // 3 m high
  EXPECT_EQ(seen(shut, 0.5).seen_share, 0.0);
}

TEST(Sight, MeshPassesItsOpennessAndLessAtASlant) {
  // 25 mm clear, 3 mm wire: straight through (25/28)² = 0.797; at 60° off the normal in plan
  // (1 − 3/28)(1 − 3/14) = 0.702.
  const Site site = watched(SheetKind::mesh, 4.5, 1.0, 0.0, 0.2);
  const auto at = [](const sight::Result& r, double x, double y) {
    return r.seen_by.at(static_cast<int>(std::lround((x + 2.0) / 0.1)),
                        static_cast<int>(std::lround((y + 2.0) / 0.1)));
  };
  const sight::Result r = seen(site, 100.0, 0.75);
  EXPECT_EQ(at(r, 5.0, 6.0), 1.0F);
  EXPECT_EQ(at(r, 5.0 + 1.0 * std::tan(geom::kPi / 3), 1.0), 0.0F);
  EXPECT_EQ(at(seen(site, 100.0, 0.69), 5.0 + std::tan(geom::kPi / 3), 1.0), 1.0F);
  EXPECT_EQ(seen(site, 100.0, 0.80).seen_share, 0.0);
}

TEST(Sight, APlantingStopsItsCoverOverItsHeightsLength) {
  // Cover 0.6, 1 m high, 2 m deep: (1 − 0.6)^2 = 0.16 is left of a level line through all of it.
  Site site = watched(SheetKind::glass, 0.0, 10.0, 0.5, 0.2);
  Planting hedge;
  hedge.name = "hedge";
  hedge.outline = tests::rectangle(-1, 2, 11, 4);
  hedge.height = 1.0;
  hedge.cover = 0.6;
  hedge.bare = Season{{11, 1}, {4, 1}};
  site.plantings.push_back(hedge);
  EXPECT_GT(seen(site, 0.5, 0.155).seen_share, 0.999);
  const sight::Result hidden = seen(site, 100.0, 0.17);
  // One eye in the middle: all behind the hedge, and the far part of what stands in it.
  EXPECT_GT(*hidden.unseen_in_leaf_m2, 40.0 - 0.5);
  EXPECT_LT(*hidden.unseen_in_leaf_m2, 46.0);
  // All but what the fence's posts hide already.
  EXPECT_NEAR(hidden_by(hidden, "hedge"), *hidden.unseen_in_leaf_m2, 3.0);
  sight::Settings winter;
  winter.seen_at = 0.17;
  winter.bare = true;  // 0.16^0.29 = 0.588
  EXPECT_GT(sight::analyse(test::built(site), winter).seen_share, 0.999);
}

TEST(Sight, ATreesTrunkAndCrownAreOneScreen) {
  Site site = watched(SheetKind::glass, 4.0, 2.0, 0.5, 1.2);
  test::add_tree(site, "yew", {5.0, 3.0}, 1.0, {2.0, 2.0, 2.4}, 0.05, 6.0);
  const sight::Result r = seen(site);
  EXPECT_GT(hidden_by(r, "yew"), 1.0);
  EXPECT_LE(r.screens.size(), 2U);  // the fence's posts are the other
}

TEST(Sight, WhatStandsBesideThePaneDecides) {
  // Guests are kept to 1 m in the middle of the south side. In solid walls the wedges of eyes at
  // both its ends are 1 + y wide together: 8 + 32 of 80.
  const sight::Result walls = seen(paned(4.5, 1.0, 2.0));
  EXPECT_NEAR(walls.seen_share * walls.usable_area_m2, 8.0 + 32.0, 1.5);  // posts
  // stand at the jambs
  // Where the whole fence is glass they look past the jambs too.
  const sight::Result clear = seen(watched(SheetKind::glass, 4.5, 1.0, 2.0));
  EXPECT_NEAR(clear.unseen_area_m2, 0.0, 0.1);
}

TEST(Sight, TwoPlacesAreCountedNodeByNode) {
  Site site = watched(SheetKind::glass, 0.0, 10.0);
  Viewing other = site.viewings[0];
  other.name = "west window";
  other.edge = 3;
  other.from = 0.0;
  other.width = 8.0;
  site.viewings.push_back(other);
  test::add_box(site, "screen", {5.0, 4.0}, {9.0, 0.2, 2.0});
  const sight::Result r = seen(site, 0.5);
  const auto at = [&](double x, double y) {
    return r.seen_by.at(static_cast<int>(std::lround((x + 2.0) / 0.1)),
                        static_cast<int>(std::lround((y + 2.0) / 0.1)));
  };
  EXPECT_EQ(at(5.0, 2.0), 2.0F);
  EXPECT_EQ(at(5.0, 5.0), 1.0F);          // behind the screen for the south, beside it for the west
  EXPECT_TRUE(std::isnan(at(5.0, 4.0)));  // in the screen
  EXPECT_TRUE(std::isnan(at(-1.0, 4.0)));  // outside
}

TEST(Sight, GuestsShareCountsOverlapsOnce) {
  Site site = watched(SheetKind::glass, 2.0, 4.0);
  Viewing more = site.viewings[0];
  more.name = "more";
  more.from = 5.0;
  more.width = 3.0;
  site.viewings.push_back(more);
  EXPECT_NEAR(seen(site).guest_boundary_share, 6.0 / 36.0, 1e-12);
  test::split_sections(site);
  site.boundary.sections[1].guest_view = true;
  EXPECT_NEAR(seen(site).guest_boundary_share, 14.0 / 36.0, 1e-12);
}

TEST(Sight, DensSeeEachOtherUnlessSomethingStandsBetween) {
  Site site = test::yard(10, 8, 2.0);
  Den a;
  a.name = "west den";
  a.at = {1.0, 4.0};
  a.size = {0.8, 0.6, 0.5};
  a.opening = 0.2;
  Den b = a;
  b.name = "east den";
  b.at = {9.0, 4.0};
  b.turn = geom::kPi;  // both look at the middle
  site.dens = {a, b};
  ASSERT_EQ(seen(site).dens.size(), 1U);
  EXPECT_TRUE(seen(site).dens[0].in_sight);
  test::add_box(site, "screen", {5.0, 4.0}, {0.1, 1.0, 0.5});
  EXPECT_FALSE(seen(site).dens[0].in_sight);
  site.objects.clear();
  test::add_mound(site, {5.0, 4.0}, 1.0, 0.5);
  EXPECT_FALSE(seen(site).dens[0].in_sight);
  site.ground.forms.clear();
  site.dens[1].turn = 0.0;  // its back to the other
  EXPECT_FALSE(seen(site).dens[0].in_sight);
}

// What its body does not fit is no ground to live on, and so no hidden place either.
TEST(Sight, ACreviceTooNarrowToLieInIsNoHiddenPlace) {
  // Two boxes 0.2 m apart (three nodes at 0.1 m: 0.1 m of free nodes between) and 3 m long.
  Site site = watched(SheetKind::glass, 0.0, 10.0);
  site.species.body.value = {0.6, 0.25, 0.2};
  test::add_box(site, "front", {5.0, 4.0}, {3.0, 0.2, 1.0});
  test::add_box(site, "back", {5.0, 4.35}, {3.0, 0.2, 1.0});
  const sight::Result r = seen(site, 0.5);
  bool crevice = false, lee = false;
  for (const sight::HiddenPlace& h : r.hidden) {
    if (h.centre.y < 4.3 && std::abs(h.centre.x - 5.0) < 1.0) crevice = true;
    if (h.centre.y > 4.5) lee = lee || h.room_to_lie;
  }
  EXPECT_FALSE(crevice);
  EXPECT_TRUE(lee);
}

TEST(Sight, GuestsBeyondTheModelledGroundSeeTheSame) {
  Site near = watched(SheetKind::glass, 0.0, 10.0, 1.5);
  test::add_mound(near, {5, 4}, 2.0, 1.4);
  Site far = near;
  near.ground.margin = 3.0;
  far.ground.margin = 0.5;
  const sight::Result a = seen(near, 0.5), b = seen(far, 0.5);
  EXPECT_NEAR(a.usable_area_m2, b.usable_area_m2, 1e-9);
  EXPECT_NEAR(a.unseen_area_m2, b.unseen_area_m2, 0.05);
  EXPECT_GT(a.unseen_area_m2, 0.5);
}

TEST(Sight, ACoarserCellComesCloseAndWithoutGuestsAllIsHidden) {
  Site site = watched(SheetKind::glass, 4.0, 2.0, 1.0);
  const Model model = test::built(site);
  sight::Settings coarse;
  coarse.cell = 0.2;
  EXPECT_NEAR(sight::analyse(model, coarse).seen_share, sight::analyse(model).seen_share, 0.02);
  site.viewings.clear();
  const sight::Result none = sight::analyse(test::built(site));
  EXPECT_EQ(none.seen_share, 0.0);
  EXPECT_NEAR(none.unseen_area_m2, none.usable_area_m2, 1e-9);
}

TEST(Sight, SettingsOutOfRangeAreRefusedAndCancellingStops) {
  const Model model = test::built(watched(SheetKind::glass, 0.0, 10.0));
  sight::Settings bad;
  bad.eye_spacing = 0.0;
  EXPECT_THROW(sight::analyse(model, bad), std::invalid_argument);
  std::atomic<bool> stop{true};
  Progress progress;
  progress.cancel = &stop;
  EXPECT_THROW(sight::analyse(model, {}, progress), Cancelled);
}

TEST(Sight, JsonAndFiguresSayTheSame) {
  const Model model = test::built(watched(SheetKind::glass, 0.0, 4.0));
  const sight::Result r = sight::analyse(model);
  const nlohmann::json j = sight::to_json(r, model);
  Figures figures;
  sight::add_figures(r, model, figures);
  EXPECT_EQ(j.at("seen_share").get<double>(), r.seen_share);
  EXPECT_EQ(figures.at("sight.unseen_area_m2").value, r.unseen_area_m2);
  EXPECT_EQ(j.at("views").at(0).at("name"), "window");
}

// Guests all along the opposite side look past both ends of the screen.
TEST(Sight, GuestsLookInAlongASectionMarkedForThem) {
  Site site = watched(SheetKind::glass, 4.8, 0.4);
  test::add_box(site, "screen", {5.0, 4.0}, {2.0, 0.2, 1.2});
  const sight::Result one = seen(site, 0.5);
  site.boundary.sections[0].guest_view = true;  // all edges
  const sight::Result all = seen(site, 0.5);
  EXPECT_GT(one.unseen_area_m2, 8.0);
  EXPECT_LT(all.unseen_area_m2, 1.0);
  EXPECT_EQ(all.views.size(), 1U + site.boundary.outline.size());
  site.viewings.clear();
  EXPECT_TRUE(sight::anyone_looks(site));
  EXPECT_LT(seen(site, 0.5).unseen_area_m2, 1.0);
}

}  // namespace
}  // namespace hummock

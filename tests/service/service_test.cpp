// Where a barrow comes: closed forms of level yards, what stops it, and that the list of analyses
// shows it everywhere by its line alone.
#include "engine/service/service.h"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/check/check.h"
#include "engine/check/check_json.h"
#include "engine/check/findings.h"
#include "engine/maps/map_layers.h"
#include "engine/service/service_json.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// 10 × 8 m, level, a gate of `width` in the middle of the south side.
Site gated(double width) {
  Site site = test::yard(10, 8, 2.0);
  test::add_gate(site, 0, 5.0 - 0.5 * width, width, 1.9).name = "south gate";
  return site;
}

Den& add_den(Site& site, Vec2 at) {
  Den den;
  den.name = "nest box";
  den.at = at;
  den.size = {0.8, 0.6, 0.5};
  den.opening = 0.2;
  return site.dens.emplace_back(den);
}

const service::Place& only_place(const service::Result& r) {
  EXPECT_EQ(r.places.size(), 1U);
  return r.places.front();
}

// A disc of radius r in a rectangle covers all but the corners, (4 − π) r²; cells at the outline
// are half in, half out: 36 m × half a cell.
TEST(Service, OnALevelYardAllButTheCornersIsReached) {
  const service::Result r = service::analyse(test::built(gated(1.0)));
  const double radius = 0.5 * service::kBarrowWidth;
  EXPECT_NEAR(r.reached_area_m2, 80.0 - (4.0 - geom::kPi) * radius * radius, 36.0 * 0.1);
  ASSERT_EQ(r.gates.size(), 1U);
  EXPECT_TRUE(r.gates[0].wide_enough);
  EXPECT_TRUE(r.gates[0].reaches);
  EXPECT_DOUBLE_EQ(r.narrowest_gate_m, 1.0);
}

TEST(Service, AGateNarrowerThanTheBarrowLetsItNowhere) {
  Site site = gated(0.7);
  add_den(site, {5, 5});
  const service::Result r = service::analyse(test::built(site));
  EXPECT_FALSE(r.gates[0].wide_enough);
  EXPECT_EQ(r.reached_area_m2, 0.0);
  EXPECT_FALSE(only_place(r).reached);
  EXPECT_TRUE(std::isinf(only_place(r).away_m));
}

// Two walls leave a lane; half a cell either side of a node, so the lane is off by a cell at most.
TEST(Service, ALaneIsPassedWhenItIsWiderThanTheBarrowByACell) {
  for (const auto& [lane, passes] : {std::pair(0.50, false), {1.00, true}}) {
    Site site = gated(1.2);
    const double wall = 0.5 * (10.0 - lane);
    test::add_box(site, "left", {0.5 * wall, 4.0}, {wall, 0.4, 1.0});
    test::add_box(site, "right", {10.0 - 0.5 * wall, 4.0}, {wall, 0.4, 1.0});
    add_den(site, {5.0, 7.0});
    const service::Result r = service::analyse(test::built(site));
    EXPECT_EQ(only_place(r).reached, passes) << lane;
    // Cut off: the walls' near face is at y = 3.8, the den's at 6.7.
    if (!passes) {
      EXPECT_NEAR(only_place(r).away_m, 2.9, 0.15);
    }
  }
}

TEST(Service, ABankSteeperThanOneInSixStopsIt) {
  for (const auto& [rise, passes] : {std::pair(1.0 / 7.0, true), {1.0 / 5.0, false}}) {
    Site site = gated(1.2);
    test::add_slope(site, {5.0, 0.0}, std::atan(rise), geom::kPi);
    const service::Result r = service::analyse(test::built(site));
    EXPECT_EQ(r.reached_area_m2 > 70.0, passes) << rise;
    EXPECT_EQ(r.gates[0].reaches, passes) << rise;
  }
}

TEST(Service, WaterIsComeToFromItsBankAndNotCrossed) {
  Site site = gated(1.2);
  Water moat;
  moat.name = "moat";
  moat.outline = {{0.5, 3.5}, {9.5, 3.5}, {9.5, 5.0}, {0.5, 5.0}};
  moat.level = 0.1;
  site.waters.push_back(moat);
  add_den(site, {5.0, 7.0});
  const service::Result r = service::analyse(test::built(site));
  ASSERT_EQ(r.places.size(), 2U);
  EXPECT_FALSE(r.places[0].reached) << "over the moat; 0.5 m of bank either side is too narrow";
  EXPECT_EQ(r.places[1].kind, "water");
  EXPECT_TRUE(r.places[1].reached);
  EXPECT_LT(r.reached_area_m2, 37.0);
}

TEST(Service, TurningTheYardChangesNothing) {
  Site site = gated(1.2);
  test::add_box(site, "crate", {3.0, 5.0}, {2.0, 1.0, 1.0});
  const double before = service::analyse(test::built(site)).reached_area_m2;
  Site turned = test::yard(8, 10, 2.0);  // a quarter turn: (x, y) → (8 − y, x)
  test::add_gate(turned, 1, 5.0 - 0.6, 1.2, 1.9);
  test::add_box(turned, "crate", {3.0, 3.0}, {1.0, 2.0, 1.0});
  EXPECT_NEAR(service::analyse(test::built(turned)).reached_area_m2, before, 0.5);
}

// A wall all round, as tall as the yard has margin: no barrow comes, though the gate is wide
// enough.
TEST(Service, ABarrowStartsOutside) {
  Site site = gated(1.2);
  EXPECT_TRUE(service::analyse(test::built(site)).gates[0].reaches);
  test::add_box(site, "before it", {5.0, -1.0}, {9.0, 0.1, 1.6});
  test::add_box(site, "west of it", {0.5, -0.5}, {0.1, 0.99, 1.6});
  test::add_box(site, "east of it", {9.5, -0.5}, {0.1, 0.99, 1.6});
  service::Result r = service::analyse(test::built(site));
  EXPECT_FALSE(r.gates[0].reaches);
  EXPECT_EQ(r.reached_area_m2, 0.0);
  ASSERT_EQ(r.places.size(), 1U) << "the ground of the yard, where nothing else is tended";
  EXPECT_EQ(r.places[0].kind, "yard");
  EXPECT_FALSE(r.places[0].reached);
  add_den(site, {5, 5});
  EXPECT_EQ(only_place(service::analyse(test::built(site))).kind, "den");
}

double shared(const Site& site, const char* what) {
  const Model model = test::built(site);
  Figures figures;
  service::add_figures(service::analyse(model), model, figures);
  return figures.at(std::string("service.shared_") + what).value.value_or(-1.0);
}

// Two gates; one opens on a court that a wall closes, to which only the other one leads.
TEST(Service, AGateInACourtIsComeToOnlyThroughTheYard) {
  Site site = test::yard(10, 8, 2.0);
  site.boundary.outline = {{0, 0}, {4, 0}, {4, 3}, {6, 3}, {6, 0}, {10, 0}, {10, 8}, {0, 8}};
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5, 6, 7};
  test::add_gate(site, 1, 1.0, 1.0, 1.9).name = "court gate";
  test::add_gate(site, 7, 2.0, 1.0, 1.9).name = "west gate";
  EXPECT_EQ(shared(site, "gates"), 0.0);
  test::add_box(site, "court wall", {5.0, -0.05}, {2.2, 0.1, 2.0});
  EXPECT_EQ(shared(site, "gates"), 1.0);
}

// A store in the fence line, its own door to the outside: free of animals until they have a hatch.
TEST(Service, APlaceIsSharedUnlessItIsAHouseWithoutAWayInForAnAnimal) {
  Site site = gated(1.2);
  site.ground.margin = 4.0;  // the door is 2 m outside
  House& house = test::add_hut(site, {{7.0, 6.0}, {9.0, 6.0}, {9.0, 10.0}, {7.0, 10.0}}, 2.5);
  house.name = "store";
  house.door = WallOpening{"door", 2, 0.5, 0.9, 2.0, 0.0, 0.0};
  EXPECT_EQ(shared(site, "places"), 0.0);
  site.houses[0].vents = {WallOpening{"hatch", 0, 0.5, 0.4, 0.4, 0.0, 0.0}};
  EXPECT_EQ(shared(site, "places"), 1.0);
  site.houses[0].vents.clear();
  site.houses[0].door->height = 1.6;  // by bending
  EXPECT_EQ(shared(site, "places"), 0.0);
  const Model model = test::built(site);
  const RestsOn rests = service::what_it_rests_on(service::analyse(model), model);
  ASSERT_EQ(rests.besides.at(1).list.size(), 1U);
  EXPECT_EQ(rests.besides.at(1).list[0].key, "headroom");
  site.houses[0].door->height = 1.2;  // nobody comes in by it
  EXPECT_EQ(shared(site, "places"), 1.0);
  site.houses[0].door->height = 2.0;
  add_den(site, {3, 3});
  EXPECT_EQ(shared(site, "places"), 1.0);
}

// By its line in the list alone: JSON, figures that a requirement may ask, findings, map.
TEST(Service, IsShownByTheListOfAnalyses) {
  Site site = gated(0.7);
  add_den(site, {5, 5});
  Requirement r;
  r.what = "service.cut_off_count";
  r.at_most = 0.0;
  r.source = "invented for the test";
  site.requirements.push_back(r);
  const Model model = test::built(site);
  CheckOptions options;
  options.only = {"service"};
  const CheckResults results = run_check(model, options);
  EXPECT_EQ(to_json(results, model).at("service").at("places").size(), 1U);
  ASSERT_EQ(results.brief.size(), 1U);
  EXPECT_EQ(results.brief[0].standing, Standing::short_of);
  bool told = false;
  for (const Finding& f : findings(model, results)) told = told || f.analysis == "service";
  EXPECT_TRUE(told);
  EXPECT_EQ(maps::compute(model, "barrow", {}).grid.size(), model.ground.grid.size());
}

TEST(Service, ASiteWithoutGatesIsNotAsked) {
  const Model model = test::built(test::yard(10, 8, 2.0));
  CheckOptions options;
  options.only = {"service"};
  const CheckResults results = run_check(model, options);
  EXPECT_EQ(results.not_run.at("service"), NotRun::no_gate);
}

}  // namespace
}  // namespace hummock

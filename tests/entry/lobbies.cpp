// A house outside that a gate opens into: the second of two doors.
#include <gtest/gtest.h>

#include "engine/entry/entry.h"
#include "engine/entry/rests_on.h"
#include "tests/support/yard.h"

namespace hummock::entry {
namespace {

// The south gate, x 4 to 5, opens into a lobby of 3 × 2.5 m with its door to the south.
Site with_lobby() {
  Site site = test::yard(10.0, 10.0, 3.0, SheetKind::solid);
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.window = true;
  House& lobby = test::add_hut(site, {{3.0, -1.9}, {6.0, -1.9}, {6.0, 0.0}, {3.0, 0.0}}, 2.5);
  lobby.name = "lobby";
  lobby.door = WallOpening{"door", 0, 1.0, 0.8, 1.9, 0.0, 0.0};
  for (Sourced<double>* row : {&site.species.least_opening, &site.species.leap_height}) {
    row->source = "seen by its keeper";
    row->evidence = "trial";
  }
  site.species.dig_length.value = 0.0;
  return site;
}

int ways_out(const Site& site) {
  int ways = 0;
  for (const GateRow& row : analyse(test::built(site)).gates)
    ways += row.one_open_door_escapes ? 1 : 0;
  return ways;
}

Drain hole(double from, double width) {
  Drain d;
  d.name = "hole";
  d.edge = 0;
  d.from = from;
  d.width = width;
  d.height = 0.2;
  return d;
}

TEST(Lobbies, NeitherOfTwoDoorsAloneIsAWayOut) {
  const Result result = analyse(test::built(with_lobby()));
  ASSERT_EQ(result.gates.size(), 2u);
  for (const GateRow& row : result.gates) {
    EXPECT_FALSE(row.one_open_door_escapes) << row.name;
    EXPECT_TRUE(row.vestibule && row.second_gate) << row.name;
    EXPECT_NEAR(row.vestibule_depth_m, 1.9, 0.02);
  }
}

TEST(Lobbies, OneThatTheAnimalComesIntoOtherwiseIsNone) {
  Site site = with_lobby();
  site.boundary.drains = {hole(5.2, 0.2)};
  EXPECT_EQ(ways_out(site), 1);
  site.boundary.drains = {hole(5.2, 0.03)};  // the head needs 0.05 m
  EXPECT_EQ(ways_out(site), 0);
  site.boundary.drains = {hole(7.0, 0.2)};  // beside it
  EXPECT_EQ(ways_out(site), 0);
}

TEST(Lobbies, OneThatDoesNotTakeAllOfTheGateIsNone) {
  Site site = with_lobby();
  for (Vec2& p : site.houses[0].outline) p.x += 1.5;
  EXPECT_EQ(ways_out(site), 1);
  site = with_lobby();
  site.boundary.gates.clear();  // nothing leads into it
  EXPECT_EQ(ways_out(site), 1);
}

std::vector<std::string> keys(const Site& site) {
  const Model model = test::built(site);
  std::vector<std::string> out;
  for (const Assumption& a : what_it_rests_on(model, {}, analyse(model)).list) out.push_back(a.key);
  return out;
}

TEST(Lobbies, RestOnWhatTheAnimalDigsAndOnItsHead) {
  Site site = with_lobby();
  EXPECT_TRUE(keys(site).empty());
  site.species.dig_length.value = 1.0;
  EXPECT_EQ(keys(site), std::vector<std::string>{"lobby"});
  site.houses[0].solid_floor = true;
  EXPECT_TRUE(keys(site).empty());
  site.boundary.drains = {hole(5.2, 0.04)};
  EXPECT_TRUE(keys(site).empty());
  site.species.least_opening.careful = 0.03;
  EXPECT_EQ(keys(site), std::vector<std::string>{"least_opening"});
}

}  // namespace
}  // namespace hummock::entry

// A house between the yard and a vestibule: what stands open for the animal leads past the gate.
#include <gtest/gtest.h>

#include "engine/entry/entry.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

// 8 × 8 m, a gate in the north from x 4 to 5 with a vestibule outside; the house's west wall, with
// its door, stands at x, its hatch opens into the yard.
Site yard(double x) {
  Site site = test::yard(8.0, 8.0, 2.0, SheetKind::solid);
  Gate& gate = test::add_gate(site, 2, 3.0, 1.0, 1.8);
  gate.opens_inwards = true;
  gate.vestibule = Vestibule{};
  gate.vestibule->depth = 2.5;
  gate.vestibule->second_gate = true;
  House house;
  house.name = "hut";
  house.outline = {{x, 7.5}, {x + 2.0, 7.5}, {x + 2.0, 10.0}, {x, 10.0}};
  house.height = 2.0;
  house.door = WallOpening{"door", 3, 1.0, 0.5, 0.5, 0.0, 0.0};
  house.vents = {WallOpening{"hatch", 0, 1.0, 0.5, 0.5, 0.0, 0.0}};
  site.houses = {house};
  return site;
}

int rows_of_the_hut(const Site& site) {
  int rows = 0;
  for (const entry::GateRow& row : entry::analyse(test::built(site)).gates)
    rows += row.name == "hut, door" && row.one_open_door_escapes ? 1 : 0;
  return rows;
}

TEST(HouseInAVestibule, LeadsPastTheGateWhereItHasAnotherWayIntoTheYard) {
  EXPECT_EQ(rows_of_the_hut(yard(4.7)), 1);
  Site grille = yard(4.7);
  grille.houses[0].vents[0].aperture = 0.01;
  EXPECT_EQ(rows_of_the_hut(grille), 0);
  EXPECT_EQ(rows_of_the_hut(yard(5.0)), 0);  // the vestibule's wall stands before its door
}

}  // namespace
}  // namespace hummock

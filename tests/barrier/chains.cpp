// The chains of whole yards: closed, cut where lines meet, and with the right space on either side.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "engine/barrier/barrier.h"
#include "geometry/plan/polygon.h"
#include "tests/support/yard.h"

namespace hummock::barrier {
namespace {

void expect_closed(const Chain& chain) {
  ASSERT_FALSE(chain.stretches.empty());
  for (std::size_t k = 0; k < chain.stretches.size(); ++k) {
    const Stretch& s = chain.stretches[k];
    const Stretch& next = chain.stretches[(k + 1) % chain.stretches.size()];
    EXPECT_LT(geom::distance(s.b, next.a), 1e-9) << k;
    EXPECT_GT(geom::distance(s.a, s.b), 0.0) << k;
  }
}

// Shoelace over the stretches: positive when the chain's own space is on its left.
double area_of(const Chain& chain) {
  double twice = 0.0;
  for (const Stretch& s : chain.stretches) twice += cross(s.a, s.b);
  return 0.5 * twice;
}

std::map<SpaceKind, double> length_by_right(const Chain& chain) {
  std::map<SpaceKind, double> sum;
  for (const Stretch& s : chain.stretches) sum[s.right.kind] += geom::distance(s.a, s.b);
  return sum;
}

Site whole_yard() {
  Site site = test::yard(10.0, 8.0, 2.0);
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.vestibule = Vestibule{2.4, true, true, false};
  House house;
  house.name = "night house";
  house.outline = {{9, 3}, {9, 6}, {12, 6}, {12, 3}};  // clockwise, across the east fence
  house.height = 2.5;
  house.door = WallOpening{"slide", 0, 1.0, 0.8, 1.0, 0.0, 0.0};
  house.footing = Footing{0.6, 0.3};
  site.houses = {house};
  site.roof = Roof{};
  site.roof->height = 2.2;
  site.roof->outline = Polygon{{1, 1}, {5, 1}, {5, 5}, {1, 5}};
  return site;
}

TEST(Barrier, every_chain_is_closed_and_has_its_own_space_on_its_left) {
  const Barrier barrier = barrier_of(test::built(whole_yard()));
  ASSERT_EQ(barrier.chains.size(), 4u);
  const double areas[] = {80.0, 2.4, 9.0, 16.0};
  for (std::size_t k = 0; k < 4; ++k) {
    expect_closed(barrier.chains[k]);
    EXPECT_NEAR(area_of(barrier.chains[k]), areas[k], 1e-6) << k;
  }
}

TEST(Barrier, a_house_across_the_fence_is_cut_where_they_cross) {
  const Barrier barrier = barrier_of(test::built(whole_yard()));
  auto house = length_by_right(barrier.chains[2]);
  EXPECT_NEAR(house[SpaceKind::yard], 3.0 + 1.0 + 1.0, 1e-9);
  EXPECT_NEAR(house[SpaceKind::outside], 3.0 + 2.0 + 2.0, 1e-9);
  double within = 0.0;
  for (const Stretch& s : barrier.chains[0].stretches) {
    if (s.left.kind != SpaceKind::house) continue;
    EXPECT_EQ(s.right.kind, SpaceKind::house);
    within += geom::distance(s.a, s.b);
  }
  EXPECT_NEAR(within, 3.0, 1e-9);  // the fence runs through the room
}

TEST(Barrier, the_door_opens_to_the_yard_and_the_wall_carries_its_footing) {
  const Chain house = barrier_of(test::built(whole_yard())).chains[2];
  int doors = 0;
  for (const Stretch& s : house.stretches) {
    ASSERT_TRUE(s.buried.footing.has_value());
    EXPECT_EQ(s.buried.footing->depth, 0.6);
    if (s.kind != StretchKind::house_door) continue;
    ++doors;
    EXPECT_TRUE(s.opens);
    EXPECT_EQ(s.right.kind, SpaceKind::yard);
    EXPECT_NEAR(geom::distance(s.a, s.b), 0.8, 1e-9);
    EXPECT_NEAR(std::min(s.a.y, s.b.y), 4.0, 1e-9);
  }
  EXPECT_EQ(doors, 1);
}

TEST(Barrier, a_gate_opens_into_its_vestibule_and_only_a_footing_lies_under_it) {
  Site site = whole_yard();
  site.boundary.sections[0].buried = 0.5;
  site.boundary.sections[0].apron = Apron{0.6, 0.1, Side::inside};
  site.boundary.sections[0].footing = Footing{0.7, 0.2};
  const Barrier barrier = barrier_of(test::built(site));
  int gates = 0;
  for (const Stretch& s : barrier.chains[0].stretches) {
    if (s.kind != StretchKind::gate) {
      EXPECT_EQ(s.buried.skirt, 0.5);
      continue;
    }
    ++gates;
    EXPECT_EQ(s.left.kind, SpaceKind::yard);
    EXPECT_EQ(s.right.kind, SpaceKind::vestibule);
    EXPECT_EQ(s.buried.skirt, 0.0);
    EXPECT_FALSE(s.buried.apron);
    ASSERT_TRUE(s.buried.footing);
  }
  EXPECT_EQ(gates, 1);
  const Chain& vestibule = barrier.chains[1];
  ASSERT_EQ(vestibule.stretches.size(), 4u);
  EXPECT_EQ(vestibule.stretches[1].kind, StretchKind::second_gate);
  EXPECT_TRUE(vestibule.stretches[1].stands);
  EXPECT_TRUE(vestibule.stretches[3].told_elsewhere);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_EQ(vestibule.stretches[k].right.kind, SpaceKind::outside);
    EXPECT_TRUE(bounds_outside(vestibule.stretches[k]));
  }
}

TEST(Barrier, a_vestibule_in_the_other_arm_has_the_yard_beyond_its_walls) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.boundary.outline = {{0, 0}, {4, 0}, {4, 6}, {6, 6}, {6, 0}, {10, 0}, {10, 10}, {0, 10}};
  site.boundary.sections[0].edges = {0, 1, 2, 3, 4, 5, 6, 7};
  Gate& gate = test::add_gate(site, 1, 2.5, 1.0, 1.8);
  gate.vestibule = Vestibule{2.5, true, true, true};
  const Barrier barrier = barrier_of(test::built(site));
  auto beyond = length_by_right(barrier.chains[1]);
  EXPECT_NEAR(beyond[SpaceKind::outside], 2.0 + 2.0, 1e-9);
  EXPECT_NEAR(beyond[SpaceKind::yard], 1.0 + 0.5 + 0.5 + 1.0, 1e-9);  // and the gate itself
}

TEST(Barrier, turning_the_outline_round_changes_no_chain) {
  Site site = whole_yard();
  const Barrier barrier = barrier_of(test::built(site));
  std::reverse(site.boundary.outline.begin(), site.boundary.outline.end());
  site.boundary.gates[0].edge = 2;
  site.boundary.gates[0].from = 10.0 - 4.0 - 1.0;
  const Barrier turned = barrier_of(test::built(site));
  ASSERT_EQ(barrier.chains.size(), turned.chains.size());
  for (std::size_t k = 0; k < barrier.chains.size(); ++k) {
    expect_closed(turned.chains[k]);
    EXPECT_NEAR(area_of(barrier.chains[k]), area_of(turned.chains[k]), 1e-6);
    EXPECT_EQ(length_by_right(barrier.chains[k]).size(), length_by_right(turned.chains[k]).size());
  }
}

TEST(Barrier, a_roofs_edge_lies_at_the_roofs_height_over_the_yard) {
  const Chain roof = barrier_of(test::built(whole_yard())).chains[3];
  EXPECT_EQ(roof.kind, ChainKind::roof);
  for (const Stretch& s : roof.stretches) {
    EXPECT_NEAR(s.top_a, 2.2, 1e-9);
    EXPECT_EQ(s.right.kind, SpaceKind::yard);
  }
}

}  // namespace
}  // namespace hummock::barrier

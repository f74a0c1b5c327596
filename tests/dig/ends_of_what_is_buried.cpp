// Tunnels sideways past the end of an apron, every side told, burrows against every edge, snow.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/dig/dig.h"
#include "tests/support/yard.h"

namespace hummock::dig {
namespace {

// The south fence in two halves of 5 m: a skirt of 0.3 m behind a wide apron, then `second`.
Site two_halves(const Section& second) {
  Site site = test::yard(10.0, 10.0, 2.0);
  site.boundary.outline = {{0, 0}, {5, 0}, {10, 0}, {10, 10}, {0, 10}};
  Section first = site.boundary.sections[0];
  first.name = "first";
  first.edges = {0};
  first.buried = 0.3;
  first.apron = Apron{2.5, 0.1, Side::inside};
  Section rest = second;
  rest.name = "rest";
  rest.edges = {1, 2, 3, 4};
  site.boundary.sections = {first, rest};
  site.species.dig_depth.value = 1.0;
  site.species.dig_length.value = 2.5;
  return site;
}

Section plain() {
  return test::yard(10.0, 10.0, 2.0).boundary.sections[0];
}

// Beside the apron's square end one goes down 0.3 m, past the skirt and up again: 0.6 m. Square to
// the fence it is 2.9 m there and 4 m under the deep skirt beside it.
TEST(BuriedEnds, a_tunnel_slips_past_the_square_end_of_an_apron) {
  Section deep = plain();
  deep.buried = 2.0;
  const Result result = analyse(test::built(two_halves(deep)));
  EXPECT_NEAR(result.least_length_m, 0.6, 0.02);
  EXPECT_NEAR(result.least_depth_m, 0.3, 0.01);
  EXPECT_FALSE(result.met);
  EXPECT_TRUE(result.worst.askew);
  EXPECT_NEAR(result.worst.at.x, 5.0, 0.01);
}

TEST(BuriedEnds, a_tunnel_slips_past_an_apron_beside_a_gate_on_a_footing) {
  Section footed = plain();
  footed.footing = Footing{1.5, 0.3};
  Site site = two_halves(footed);
  test::add_gate(site, 1, 0.0, 1.0, 1.8);
  const Result result = analyse(test::built(site));
  EXPECT_FALSE(result.met);
  EXPECT_LT(result.least_length_m, 0.8);  // round half the footing's width at most
}

TEST(BuriedEnds, an_apron_that_runs_on_is_not_slipped_past) {
  Section same = plain();
  same.buried = 0.3;
  same.apron = Apron{2.5, 0.1, Side::inside};
  const Result result = analyse(test::built(two_halves(same)));
  EXPECT_GT(result.least_length_m, 2.8);
}

TEST(BuriedEnds, every_side_that_can_be_dug_under_is_told) {
  Site site = test::yard(4.0, 3.0, 2.0);
  site.boundary.sections[0].buried = 0.5;
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.ways_under.size(), 4u);
  double along = 0.0;
  for (const WayUnder& way : result.ways_under) along += way.along_m;
  EXPECT_NEAR(along, 14.0, 1e-9);
}

// Under a wide footing the shortest tunnel and the shallowest are two; what is told is of one.
TEST(BuriedEnds, depth_and_length_told_are_of_one_tunnel) {
  Site site = test::yard(4.0, 3.0, 2.0);
  site.boundary.sections[0].buried = 0.3;
  site.boundary.sections[0].apron = Apron{1.2, 0.1, Side::inside};
  const Result result = analyse(test::built(site));
  for (const Station& s : result.worst_of_each) {
    double length = 0.0, deepest = 0.0;
    for (std::size_t k = 0; k < s.tunnel.size(); ++k) {
      if (k > 0) length += geom::distance(s.tunnel[k - 1], s.tunnel[k]);
      deepest = std::max(deepest, -s.tunnel[k].z);
    }
    EXPECT_NEAR(s.tunnel_length_m, length, 1e-9);
    EXPECT_NEAR(s.tunnel_depth_m, deepest, 1e-9);
  }
}

TEST(BuriedEnds, a_burrow_is_held_against_every_edge_in_reach) {
  Site site = test::yard(8.0, 6.0, 3.0, SheetKind::solid);
  test::split_sections(site);
  site.boundary.sections[0].footing = Footing{3.0, 0.3};
  site.species.dig_depth.value = 1.0;
  site.species.dig_length.value = 2.5;
  Burrow burrow;
  burrow.name = "set";
  burrow.mouth = {1.5, 1.0};
  burrow.path = {{0.9, 0.6}};  // 0.6 m from the footed wall, 0.9 m from the bare one
  burrow.depth = 0.6;
  site.burrows = {burrow};
  const Result result = analyse(test::built(site));
  ASSERT_EQ(result.burrows.size(), 1u);
  EXPECT_FALSE(result.burrows[0].within);
  EXPECT_NEAR(*result.burrows[0].left_to_dig_m, 0.9,
              0.05);  // level to the wall, then up the scrape
}

// Under a mesh of 0.8 m a tunnel is 1.6 m long; from a burrow whose wall is 0.5 m from the fence
// 0.5 m to the mesh's foot and 0.8 m up. So whether or not the animal digs as far as that.
TEST(BuriedEnds, what_a_burrow_leaves_to_dig_counts_among_the_tunnels) {
  for (const double digs : {0.0, 0.4, 1.25, 2.0}) {
    SCOPED_TRACE(digs);
    Site site = test::yard(6.0, 5.0, 1.6, SheetKind::solid);
    site.ground.margin = 3.0;
    site.boundary.sections[0].buried = 0.8;
    site.species.dig_depth.value = 0.5;
    site.species.dig_length.value = digs;
    site.requirements.push_back({});
    site.requirements.back().what = "dig.least_length_m";
    site.requirements.back().at_least = 1.5;
    Burrow burrow;
    burrow.name = "set";
    burrow.mouth = {3.0, 1.8};
    burrow.path = {{3.0, 0.6}};
    burrow.depth = 0.9;
    burrow.diameter = 0.2;
    EXPECT_NEAR(analyse(test::built(site)).least_length_m, 1.6, 1e-6);
    site.burrows = {burrow};
    const Result result = analyse(test::built(site));
    EXPECT_NEAR(result.least_length_m, 1.3, 0.01);
    EXPECT_EQ(result.shortest_from, "set");
  }
}

TEST(BuriedEnds, snow_is_no_soil) {
  Site site = test::yard(4.0, 3.0, 2.0);
  site.boundary.sections[0].buried = 0.6;
  const Result bare = analyse(test::built(site));
  const Result snowed =
      analyse(test::built(site, BuildOptions{.snow = 0.4, .growth = 0.0, .scour = 0.0}));
  EXPECT_NEAR(snowed.least_depth_m, bare.least_depth_m, 1e-9);
  EXPECT_NEAR(snowed.least_length_m, bare.least_length_m, 1e-9);
  EXPECT_EQ(snowed.met, bare.met);
}

}  // namespace
}  // namespace hummock::dig

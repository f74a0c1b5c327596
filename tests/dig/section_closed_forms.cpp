// Tunnels whose length and depth are known by hand.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/dig/section/section_paths.h"

namespace hummock::dig {
namespace {

GroundLine level(double reach = 6.0) {
  return {{-reach, 0.0}, {0.0, 0.0}, {reach, 0.0}};
}

Piece skirt(double depth) {
  return {{0.0, 0.0}, {0.0, -depth}, kSkirt};
}

void expect_tunnel(const SectionPaths& paths, double length, double depth) {
  const Tunnel tunnel = paths.shortest();
  ASSERT_TRUE(tunnel.open);
  EXPECT_NEAR(tunnel.length, length, 1e-9);
  EXPECT_NEAR(tunnel.depth, depth, 1e-9);
}

TEST(SectionPaths, with_nothing_buried_there_is_nothing_to_dig) {
  const SectionPaths paths({level(), {}, {{{0.0, 0.0}, {0.0, 2.0}, kPanel}}});
  EXPECT_EQ(paths.least_depth(), 0.0);
  expect_tunnel(paths, 0.0, 0.0);
}

TEST(SectionPaths, under_a_skirt_on_level_ground_it_is_straight_down_and_up) {
  const SectionPaths paths({level(), {}, {skirt(0.6)}});
  EXPECT_NEAR(paths.least_depth(), 0.6, 1e-12);
  expect_tunnel(paths, 1.2, 0.6);
  EXPECT_EQ(paths.shortest().path.size(), 3u);
  EXPECT_EQ(paths.shortest().bends.front(), static_cast<std::uint32_t>(kSkirt));
}

// Down at the apron's inner edge (d), straight to the skirt's tip, up along it (b).
TEST(SectionPaths, an_inside_apron_adds_the_way_from_its_edge_to_the_skirts_foot) {
  const double a = 0.9, d = 0.15, b = 0.6;
  const SectionPaths paths({level(), {}, {skirt(b), {{0.0, -d}, {a, -d}, kApron}}});
  EXPECT_NEAR(paths.least_depth(), b, 1e-12);
  expect_tunnel(paths, d + std::hypot(a, b - d) + b, b);
}

TEST(SectionPaths, an_outside_apron_is_the_mirror_of_an_inside_one) {
  const double a = 0.9, d = 0.15, b = 0.6;
  const SectionPaths paths({level(), {}, {skirt(b), {{0.0, -d}, {-a, -d}, kApron}}});
  expect_tunnel(paths, d + std::hypot(a, b - d) + b, b);
}

TEST(SectionPaths, an_apron_at_the_skirts_foot_makes_an_l) {
  const SectionPaths paths({level(), {}, {skirt(0.3), {{0.0, -0.3}, {0.5, -0.3}, kApron}}});
  expect_tunnel(paths, 0.3 + 0.5 + 0.3, 0.3);
}

TEST(SectionPaths, an_apron_on_the_surface_covers_the_ground_it_lies_on) {
  const SectionPaths paths({level(), {}, {skirt(0.4), {{0.0, 0.0}, {0.7, 0.0}, kApron}}});
  expect_tunnel(paths, std::hypot(0.7, 0.4) + 0.4, 0.4);
  const SectionPaths bare({level(), {}, {{{0.0, 0.0}, {0.7, 0.0}, kApron}}});
  expect_tunnel(bare, 0.7, 0.0);
}

TEST(SectionPaths, a_footing_is_gone_round_on_three_sides) {
  const double f = 0.5, w = 0.3;
  // Once more with its top 0.2 m in the air: the ground was lost round it.
  const std::vector<Piece> bared = {{{-w / 2, 0.2}, {-w / 2, -f}, kFooting},
                                    {{-w / 2, -f}, {w / 2, -f}, kFooting},
                                    {{w / 2, -f}, {w / 2, 0.2}, kFooting},
                                    {{w / 2, 0.2}, {-w / 2, 0.2}, kFooting}};
  expect_tunnel(SectionPaths({level(), {}, bared}), f + w + f, f);
  const std::vector<Piece> box = {{{-w / 2, 0.0}, {-w / 2, -f}, kFooting},
                                  {{-w / 2, -f}, {w / 2, -f}, kFooting},
                                  {{w / 2, -f}, {w / 2, 0.0}, kFooting},
                                  {{w / 2, 0.0}, {-w / 2, 0.0}, kFooting}};
  const SectionPaths paths({level(), {}, box});
  EXPECT_NEAR(paths.least_depth(), f, 1e-12);
  expect_tunnel(paths, f + w + f, f);
}

// Skirt, footing and apron together: down at the apron's edge, to the nearer lower corner of the
// footing, along its foot, up its far side.
TEST(SectionPaths, a_skirt_in_a_footing_with_an_apron_is_gone_round_as_one) {
  const std::vector<Piece> pieces = {skirt(0.3),
                                     {{-0.1, 0.0}, {-0.1, -0.5}, kFooting},
                                     {{-0.1, -0.5}, {0.1, -0.5}, kFooting},
                                     {{0.1, -0.5}, {0.1, 0.0}, kFooting},
                                     {{0.1, 0.0}, {-0.1, 0.0}, kFooting},
                                     {{0.0, -0.2}, {0.8, -0.2}, kApron}};
  const SectionPaths paths({level(), {}, pieces});
  EXPECT_NEAR(paths.least_depth(), 0.5, 1e-12);
  expect_tunnel(paths, 0.2 + std::hypot(0.7, 0.3) + 0.2 + 0.5, 0.5);
}

// On ground that falls across the fence the nearest ground on the low side is met at right angles,
// b·cos θ away; on the high side it is the fence's foot itself.
TEST(SectionPaths, on_a_slope_the_low_side_is_nearer) {
  for (const double degrees : {5.0, 20.0, 40.0}) {
    const double th = degrees * geom::kDegree;
    const double t = std::tan(th);
    const GroundLine ground = {{-6.0, 6.0 * t}, {0.0, 0.0}, {6.0, -6.0 * t}};
    const SectionPaths paths({ground, {}, {skirt(0.6)}});
    expect_tunnel(paths, 0.6 * (1.0 + std::cos(th)), 0.6);
  }
}

// A fence on the crest of a bank: from the skirt's tip to either face at right angles, or to the
// bank's foot when the tip is deeper than the faces reach.
TEST(SectionPaths, through_a_bank_the_faces_are_nearer_than_the_crest) {
  const GroundLine ground = {{-5.0, 0.0}, {-0.6, 0.0}, {-0.1, 1.0}, {0.0, 1.0},
                             {0.1, 1.0},  {0.6, 0.0},  {5.0, 0.0}};
  const SectionPaths shallow({ground, {}, {{{0.0, 1.0}, {0.0, 0.6}, kSkirt}}});
  expect_tunnel(shallow, 2.0 * (0.3 * 2.0 / std::sqrt(5.0)), 0.4);
  const SectionPaths deep({ground, {}, {{{0.0, 1.0}, {0.0, -2.0}, kSkirt}}});
  expect_tunnel(deep, 2.0 * std::hypot(0.6, 2.0), 3.0);
}

TEST(SectionPaths, a_skirt_down_to_the_rock_closes_the_way) {
  const SectionPaths closed({level(), lowered(level(), 0.6), {skirt(0.6)}});
  EXPECT_EQ(closed.least_depth(), std::numeric_limits<double>::infinity());
  EXPECT_FALSE(closed.shortest().open);
  const SectionPaths open({level(), lowered(level(), 0.61), {skirt(0.6)}});
  expect_tunnel(open, 1.2, 0.6);
}

// Rock with a ledge in the way: the tunnel under the skirt's tip must climb over the ledge's edge.
TEST(SectionPaths, a_ledge_of_rock_is_climbed_over) {
  const GroundLine ground = {{-6, 0}, {-0.5, 0}, {0, 0}, {0.3, 0}, {0.4, 0}, {6, 0}};
  const GroundLine rock = {{-6, -1}, {-0.5, -1}, {0, -1}, {0.3, -1}, {0.4, -0.2}, {6, -0.2}};
  const std::vector<Piece> pieces = {skirt(0.5), {{0.0, -0.1}, {0.8, -0.1}, kApron}};
  const SectionPaths paths({ground, rock, pieces});
  // Down at the apron's edge (0.1), under the apron to the ledge (0.4, −0.2), to the tip, up.
  const double straight = std::hypot(0.8, 0.4);  // edge to tip passes (0.4, −0.3): below the ledge
  const double over = std::hypot(0.4, 0.1) + std::hypot(0.4, 0.3);
  EXPECT_GT(over, straight);
  expect_tunnel(paths, 0.1 + over + 0.5, 0.5);
}

TEST(SectionPaths, a_depth_limit_shuts_what_is_deeper_and_touches_nothing_else) {
  const SectionPaths paths({level(), {}, {skirt(0.6)}});
  EXPECT_FALSE(paths.shortest(0.59).open);
  EXPECT_TRUE(paths.shortest(0.6).open);
  EXPECT_NEAR(paths.shortest(0.9).length, 1.2, 1e-9);
}

// A hump outside: the shortest way under it is deep below its top; kept shallow it is longer.
TEST(SectionPaths, a_depth_limit_makes_the_tunnel_follow_the_ground) {
  const GroundLine ground = {{-6, 0}, {-1.0, 0}, {-0.5, 0.5}, {0.0, 0.0}, {6, 0}};
  const std::vector<Piece> pieces = {skirt(0.1), {{0.0, -0.1}, {-1.0, -0.1}, kApron}};
  const SectionPaths paths({ground, {}, pieces});
  const Tunnel deep = paths.shortest();
  EXPECT_NEAR(deep.length, 0.1 + 1.0 + 0.1, 1e-9);
  EXPECT_NEAR(deep.depth, 0.6, 1e-9);
  EXPECT_NEAR(paths.least_depth(), 0.6, 1e-9);  // the apron runs under the hump's top
}

TEST(SectionPaths, pieces_with_a_slit_between_let_the_tunnel_through) {
  const SectionPaths paths({level(), {}, {skirt(0.3), {{0.0, -0.3001}, {0.0, -0.8}, kSkirt}}});
  expect_tunnel(paths, 0.6, 0.3);
}

TEST(SectionPaths, a_joint_of_skirt_and_apron_does_not_leak) {
  const SectionPaths paths(
      {level(),
       {},
       {skirt(0.6), {{1e-13, -0.2}, {0.4, -0.2}, kApron}, {{-0.5, -0.2}, {-1e-12, -0.2}, kApron}}});
  expect_tunnel(
      paths, 0.2 + 2.0 * 0.4 * std::sqrt(2.0) - 0.4 * std::sqrt(2.0) + std::hypot(0.5, 0.4) + 0.2,
      0.6);
}

TEST(SectionPaths, from_a_burrows_end_only_the_rest_is_dug) {
  const SectionPaths paths({level(), {}, {skirt(0.6)}});
  const Tunnel tunnel = paths.shortest_from({0.8, -0.6});
  EXPECT_NEAR(tunnel.length, 0.8 + 0.6, 1e-9);
  EXPECT_NEAR(paths.shortest_from({0.0, -0.9}).length, 0.9, 1e-9);
}

}  // namespace
}  // namespace hummock::dig

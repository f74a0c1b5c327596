// A head between things that stand close: closed forms in plan, walls taller than any leap.
#include "engine/entry/narrow_way.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/entry/entry.h"
#include "tests/entry/every_cell.h"
#include "tests/support/yard.h"

namespace hummock::entry {
namespace {

constexpr double kHead = 0.1;  // m

// Upright quads 3 m high along a broken line.
void add_wall(geom::Mesh& mesh, const std::vector<Vec2>& line) {
  for (std::size_t k = 1; k < line.size(); ++k) {
    geom::append_quad(mesh, at_height(line[k - 1], 0.0), at_height(line[k], 0.0),
                      at_height(line[k], 3.0), at_height(line[k - 1], 3.0));
  }
}

// The space before the gate from x 4 to 5 at y 0, closed but for a slit `wide` between two parallel
// boards that run off at 45 degrees.
geom::Mesh slanted_slit(double wide) {
  const Vec2 across = geom::unit(Vec2{1.0, 1.0}) * wide;
  const Vec2 from{4.3, -0.9}, to{4.7, -1.3};
  geom::Mesh mesh;
  add_wall(mesh, {{3.6, 0.0}, {3.6, -0.9}, from, to});
  add_wall(mesh, {{5.4, 0.0}, {5.4, from.y + across.y}, from + across, to + across});
  return mesh;
}

bool out_through(double slit) {
  const Model model = test::built(test::yard(10.0, 10.0, 3.0));
  return head_gets_away(model, {slanted_slit(slit)},
                        {{4.5, 0.0}, {1.0, 0.0}, 2.5, kHead, {0.2, 0.7}, {0.0}, 0.15});
}

TEST(NarrowWay, a_slanted_slit_as_wide_as_the_head_lets_it_out) {
  EXPECT_TRUE(out_through(1.001 * kHead));
  EXPECT_TRUE(out_through(1.5 * kHead));
}

TEST(NarrowWay, one_of_nine_tenths_of_it_does_not) {
  EXPECT_FALSE(out_through(0.9 * kHead));
  EXPECT_FALSE(out_through(0.3 * kHead));
}

// Bars of 0.1 m before a gate without a vestibule, from fence to fence.
bool out_between_bars(double gap) {
  Site site = test::yard(10.0, 10.0, 3.0);
  site.species.least_opening.value = kHead;
  test::add_gate(site, 0, 4.0, 1.0, 1.8);
  double x = 3.7;
  for (int k = 0; x < 5.3; ++k, x += 0.1 + gap) {
    test::add_box(site, "bar " + std::to_string(k), {x, -0.3}, {0.1, 0.1, 2.9});
  }
  for (const double side : {3.62, x - gap}) {
    test::add_box(site, "end " + std::to_string(side), {side, -0.16}, {0.1, 0.28, 2.9});
  }
  return analyse(test::built(site)).gates.at(0).one_open_door_escapes;
}

TEST(NarrowWay, bars_before_a_gate_are_judged_by_the_gap_between_them) {
  EXPECT_FALSE(out_between_bars(0.06));
  EXPECT_TRUE(out_between_bars(0.105));
}

// A wall as thick as several steps is leapt over all the same.
TEST(NarrowWay, thick_walls_lower_than_its_leap_hold_nothing) {
  for (const double high : {0.6, 0.8}) {
    Site site = test::yard(10.0, 10.0, 3.0);  // leaps 0.7 m
    site.species.grip.value = 0.0;
    test::add_gate(site, 0, 4.0, 1.0, 1.8);
    test::add_box(site, "west", {3.5, -0.8}, {0.4, 1.58, high});
    test::add_box(site, "east", {5.5, -0.8}, {0.4, 1.58, high});
    test::add_box(site, "south", {4.5, -1.7}, {2.4, 0.4, high});
    EXPECT_EQ(analyse(test::built(site)).gates.at(0).one_open_door_escapes, high < 0.7) << high;
  }
}

// A vestibule of 3 m with a roof, and an animal that leaps 3.5 m: through no roof.
TEST(NarrowWay, a_roofed_vestibule_is_not_left_over_its_walls) {
  Site site = test::yard(10.0, 10.0, 3.0);
  site.species.leap_height.value = 3.5;
  Gate& gate = test::add_gate(site, 0, 4.0, 1.0, 1.8);
  gate.vestibule = Vestibule{2.4, true, true, true};
  EXPECT_FALSE(analyse(test::built(site)).gates.at(0).one_open_door_escapes);
  site.boundary.gates[0].vestibule->roofed = false;
  EXPECT_TRUE(analyse(test::built(site)).gates.at(0).one_open_door_escapes);
}

// Walls of random heights strewn before the gate, and a head of random width: the same answer as
// when every cell is looked at. Seeded.
TEST(NarrowWay, the_cells_come_to_give_the_same_answer_as_every_cell) {
  const Model model = test::built(test::yard(10.0, 10.0, 3.0));
  std::mt19937 random(20260601);
  const auto from = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  int away = 0;
  constexpr int kYards = 60;
  for (int yard = 0; yard < kYards; ++yard) {
    std::vector<geom::Mesh> things(3);
    const int walls = 10 + 3 * yard;
    for (int k = 0; k < walls; ++k) {
      const Vec2 a{4.5 + from(-2.5, 2.5), from(-2.5, 0.0)};
      const double turn = from(0.0, 2.0 * geom::kPi);
      const Vec2 b = a + Vec2{std::cos(turn), std::sin(turn)} * from(0.1, 2.0);
      const double foot = from(0.0, 1.0) < 0.3 ? from(0.0, 0.4) : -0.5, top = foot + from(0.3, 3.0);
      geom::append_quad(things[static_cast<std::size_t>(k % 3)], at_height(a, foot),
                        at_height(b, foot + from(-0.2, 0.2)), at_height(b, top), at_height(a, top));
    }
    const Doorway door{{4.5, 0.0},       {1.0, 0.0},    2.0, from(0.06, 0.3), {0.1, 0.25, 0.4, 0.6},
                       {-0.3, 0.0, 0.2}, from(0.1, 0.3)};
    const bool out = head_gets_away(model, things, door);
    EXPECT_EQ(out, test_every_cell::head_gets_away(model, things, door)) << yard;
    away += out ? 1 : 0;
  }
  EXPECT_GT(away, 5);
  EXPECT_LT(away, kYards - 5);
}

}  // namespace
}  // namespace hummock::entry

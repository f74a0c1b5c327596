#include <algorithm>

#include "tests/witness/families.h"

namespace hummock::witness {
namespace {

// --- flush with tops

// The thing takes the whole width of the low side, so that no free top is left beside it.
constexpr double kWide = 2.0;  // m

// Mostly level with the edge or above it by less than the least opening of these animals (0.06 m),
// where an edge is easily taken for closed.
double flush_rise(Random& random) {
  return random.chance(0.6) ? random.between(0.0, 0.055) : random.between(-0.1, 0.1);
}
// Mostly against the barrier.
double flush_gap(Random& random, double most) {
  return random.chance(0.6) ? 0.0 : random.between(0.0, most);
}

RandomYard flush_box(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.3, 1.7) * animal.leap_height;
  YardText yard = low_front(random, animal, top, "solid", "", kWide);
  const double depth = random.between(0.3, 0.6);
  const double x = 0.5 * kWide;
  const double off = flush_gap(random, 0.06);
  const double high = top + flush_rise(random);
  yard.box("crate", {x, off + 0.5 * depth}, {kWide - 0.004, depth, high});
  step_before(yard, random, x, off + depth, high * random.between(0.35, 0.6));
  return yard.done();
}

RandomYard flush_tip(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.3, 1.6) * animal.leap_height;
  const double length = random.between(0.2, 0.4);
  const double angle = random.between(-10.0, 40.0);
  YardText yard = low_front(
      random, animal, top, "solid",
      fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n", length, angle), kWide);
  const double tip = length * std::cos(angle * geom::kDegree);
  const double high = top + length * std::sin(angle * geom::kDegree) + flush_rise(random);
  const double x = 0.5 * kWide;
  const double depth = random.between(0.3, 0.6);
  const double y = tip + 0.5 * depth + random.between(-0.15, 0.1);
  yard.box("crate", {x, std::max(y, 0.5 * depth + 0.01)}, {kWide - 0.004, depth, high});
  step_before(yard, random, x, y + 0.5 * depth, high * random.between(0.4, 0.6));
  return yard.done();
}

RandomYard flush_shelf(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.3, 1.6) * animal.leap_height;
  YardText yard = low_front(random, animal, top, "solid", "", kWide);
  const double x = 0.5 * kWide;
  const double depth = random.between(0.3, 0.6);
  yard.add(fmt::format(
      "[[object]]\nname = \"shelf\"\nkind = \"platform\"\nat = [{:.3f}, {:.3f}]\n"
      "size = [{:.3f}, {:.3f}, {:.3f}]\n",
      x, 0.5 * depth + flush_gap(random, 0.02), kWide - 0.004, depth, top + flush_rise(random)));
  step_before(yard, random, x, depth, top * random.between(0.4, 0.6));
  return yard.done();
}

RandomYard flush_house(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.5, 2.2) * animal.leap_height;
  YardText yard = low_front(random, animal, top, "solid", "", kWide);
  const double depth = random.between(0.9, 1.3);
  const bool at_wall = random.chance(0.7);
  const double y = at_wall ? 0.0 : random.between(0.02, 0.1);
  yard.house("house", {0.0, y}, {kWide, y + depth}, top + flush_rise(random));
  stairs(yard, {0.5 * kWide, y + depth + 0.3}, top * 0.7,
         animal.leap_height * random.between(0.5, 0.8), 0.5);
  return yard.done();
}

// --- clear heights between the least opening and the body

// A box before the wall with a tall block hung over it, too low to stand under: what rests or
// squeezes in between leaves over the wall; nothing else is near it.
RandomYard crouching(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.35, 1.6) * animal.leap_height;
  YardText yard = low_front(random, animal, top);
  const double high = random.between(0.5, 0.75) * animal.leap_height;
  const Vec2 at{random.between(0.9, 2.0), random.between(0.35, 0.55) + 0.25};
  yard.box("crate", at, {0.8, 0.5, high});
  yard.box("block over it", at, {0.8, 0.5, 2.5}, 0.0, high + random.between(0.12, 0.28));
  yard.body_height = 0.3;
  return yard.done();
}

// --- corners and joints

RandomYard corner(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.2, 1.5) * animal.leap_height;
  const int shape = random.below(3);
  const double a = random.between(1.2, 1.8);
  std::vector<Vec2> outline = rectangle(3.6, 3.6);
  if (shape == 1) outline = {{0, 0}, {a, 0}, {a, a}, {3.6, a}, {3.6, 3.6}, {0, 3.6}};  // reflex
  if (shape == 2) outline = {{0, 0}, {3.6, 0}, {random.between(0.8, 2.0), 3.4}};       // acute
  YardText yard(outline, animal);
  std::string edges;
  for (std::size_t k = 0; k < outline.size(); ++k) edges += fmt::format("{}{}", k ? ", " : "", k);
  yard.section("all round", edges, "solid", top,
               fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n",
                           random.between(0.15, 0.4), random.between(0.0, 45.0)));
  const Vec2 at = shape == 1 ? Vec2{a - random.between(0.5, 0.7), a + random.between(0.5, 0.7)}
                             : Vec2{random.between(0.7, 1.0), random.between(0.4, 0.7)};
  yard.box("block", at, {0.35, 0.35, random.between(0.3, 0.8) * animal.leap_height},
           random.between(0.0, 90.0));
  return yard.done();
}

RandomYard joint(Random& random) {
  const Animal animal = leaper(random);
  YardText yard({{0, 0}, {1.7, 0}, {3.4, random.between(-0.4, 0.4)}, {3.4, 3.5}, {0, 3.5}}, animal);
  const double low = random.between(1.15, 1.5) * animal.leap_height;
  yard.section("first", "0", random.chance(0.5) ? "solid" : "glass", low, some_overhang(random));
  yard.section("second", "1", random.chance(0.5) ? "solid" : "mesh",
               low + random.between(-0.2, 0.6), some_overhang(random));
  yard.section("rest", "2, 3, 4", kHigh, kHighWall);
  yard.box("block", {1.7 + random.between(-0.4, 0.4), random.between(0.75, 1.0)}, {0.4, 0.4, 0.4},
           random.between(0.0, 90.0));
  return yard.done();
}

RandomYard house_wall(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.5, 2.0) * animal.leap_height;
  YardText yard = low_front(random, animal, random.between(2.4, 3.0) * animal.leap_height);
  const double out = random.between(0.1, 0.6);  // it stands across the line
  yard.house("house", {0.8, -out}, {2.4, 1.0}, top);
  stairs(yard, {1.6, 1.35}, top * random.between(0.4, 0.7), animal.leap_height * 0.8, 0.5);
  return yard.done();
}

RandomYard stepped(Random& random) {
  Animal animal = leaper(random);
  animal.least_opening = 0.16;
  const double angle = random.between(5.0, 14.0);
  const bool steps = random.chance(0.7);
  YardText yard =
      low_front(random, animal, random.between(1.15, 1.4) * animal.leap_height, "solid",
                fmt::format("fit = \"{}\"\npanel = 0.5\n", steps ? "stepped" : "raked"));
  yard.ground = "level = 0.0\n";
  yard.add(
      fmt::format("[[ground.form]]\nkind = \"slope\"\nat = [1.0, 1.0]\nangle = {:.3f}\n"
                  "downhill = {:.3f}\n",
                  angle, random.between(60.0, 300.0)));
  yard.box("block", {random.between(0.9, 2.2), random.between(0.6, 1.0)}, {0.5, 0.5, 0.35});
  return yard.done();
}

}  // namespace

Makers barrier_families() {
  return {{"flush-box", flush_box},
          {"flush-tip", flush_tip},
          {"flush-shelf", flush_shelf},
          {"flush-house", flush_house},
          {"crouching", crouching},
          {"corner", corner},
          {"joint", joint},
          {"house-wall", house_wall},
          {"stepped", stepped}};
}

}  // namespace hummock::witness

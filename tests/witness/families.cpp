#include <algorithm>
#include <stdexcept>

#include "tests/witness/yard_text.h"

namespace hummock::witness {
namespace {

constexpr const char* kHigh = "solid";
constexpr double kHighWall = 4.0;  // m, out of any animal's leap

// The usual yard: one low side (edge 0, along y = 0), the others out of reach.
YardText low_front(Random& random, const Animal& animal, double height,
                   const std::string& kind = "solid", const std::string& more = "",
                   double width = 0.0) {
  YardText yard(rectangle(width > 0.0 ? width : random.between(3.2, 4.5), random.between(3.4, 4.4)),
                animal);
  yard.section("front", "0", kind, height, more);
  yard.section("rest", "1, 2, 3", kHigh, kHighWall);
  return yard;
}

// A step well within the leap, `gap` in front of a thing whose far side is at y.
void step_before(YardText& yard, Random& random, double x, double y, double height) {
  yard.box("step", {x, y + 0.25 + random.between(0.0, 0.25)}, {0.5, 0.5, height});
}

// --- flush with tops

// The thing takes the whole width of the low side, so that no free top is left beside it.
constexpr double kWide = 2.0;  // m

RandomYard flush_box(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.3, 1.7) * animal.leap_height;
  YardText yard = low_front(random, animal, top, "solid", "", kWide);
  const double depth = random.between(0.3, 0.6);
  const double x = 0.5 * kWide;
  const double off = random.between(0.005, 0.06);
  const double high = top + random.between(-0.1, 0.1);
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
  const double high = top + length * std::sin(angle * geom::kDegree) + random.between(-0.1, 0.1);
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
  yard.add(
      fmt::format("[[object]]\nname = \"shelf\"\nkind = \"platform\"\nat = [{:.3f}, {:.3f}]\n"
                  "size = [{:.3f}, {:.3f}, {:.3f}]\n",
                  x, 0.5 * depth + random.between(0.0, 0.02), kWide - 0.004, depth,
                  top + random.between(-0.1, 0.1)));
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
  yard.house("house", {0.0, y}, {kWide, y + depth}, top + random.between(-0.1, 0.1));
  stairs(yard, {0.5 * kWide, y + depth + 0.3}, top * 0.7,
         animal.leap_height * random.between(0.5, 0.8), 0.5);
  return yard.done();
}

// --- clear heights between the least opening and the body

RandomYard crouching(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.5, 1.9) * animal.leap_height;
  const double length = random.between(0.4, 0.7);
  YardText yard = low_front(random, animal, top, "solid",
                            fmt::format("overhang = {{ length = {:.3f}, angle = 0.0 }}\n", length));
  const double x = random.between(0.9, 2.0);
  const double high = top - random.between(0.08, 0.28);
  const double depth = length - random.between(0.02, 0.08);
  yard.box("crate", {x, 0.01 + 0.5 * depth}, {0.8, depth, high});
  yard.box("step", {x + 0.9, 0.6 + random.between(0.0, 0.3)}, {0.5, 0.5, high * 0.5});
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

std::string some_overhang(Random& random) {
  return random.chance(0.5) ? fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n",
                                          random.between(0.15, 0.4), random.between(-20.0, 60.0))
                            : "";
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

// --- trees, roofs

RandomYard crown(Random& random) {
  Animal animal = climber(random);
  animal.climbs = {"bark"};
  YardText yard = low_front(random, animal, random.between(1.6, 2.4) * animal.leap_height);
  const bool marked = random.chance(0.4);
  if (marked) animal.climbs = {}, yard.animal() = animal;
  const double wide = random.between(1.0, 1.8);
  yard.add(fmt::format(
      "[[object]]\nname = \"tree\"\nkind = \"tree\"\nat = [{:.3f}, {:.3f}]\ntrunk = [0.2, 1.6]\n"
      "climbable = {}\ncrown = {{ shape = \"ellipsoid\", size = [{:.3f}, {:.3f}, 1.2], base = 1.4, "
      "leaf_area_density = 1.0 }}\n",
      random.between(1.2, 2.0), 0.5 * wide + random.between(-0.5, 0.7), marked, wide, wide));
  if (marked) yard.animal().scrambled = {"tree"};
  return yard.done();
}

RandomYard roof_edge(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.2, 1.7) * animal.leap_height;
  YardText yard(rectangle(3.6, 3.6), animal);
  yard.section("all round", "0, 1, 2, 3", "solid", top);
  const double y0 = random.chance(0.5) ? 0.0 : random.between(0.02, 0.05);
  const double back = random.between(1.0, 2.4);
  yard.add(fmt::format(
      "[roof]\nkind = \"solid\"\noutline = [[0, {0:.3f}], [3.6, {0:.3f}], [3.6, {1:.3f}], [0, "
      "{1:.3f}]]\nabove_fence = {2:.3f}\n",
      y0, back, random.between(0.0, 0.05)));
  yard.box("block", {random.between(1.0, 2.6), back + random.between(-0.2, 0.7)}, {0.5, 0.5, 0.4});
  return yard.done();
}

// --- shapes of their own

RandomYard ridge(Random& random) {
  const Animal animal = leaper(random);
  const double top = random.between(1.4, 1.8) * animal.leap_height;
  YardText yard = low_front(random, animal, top);
  const double pitch = random.between(40.0, 60.0) * geom::kDegree;
  const double high = random.between(0.6, 0.95) * animal.leap_height;
  const double half = high / std::tan(pitch);
  const double l = 0.5;
  yard.mesh(
      "gable", {random.between(1.2, 2.0), half + random.between(0.05, 0.4)},
      obj({{-l, -half, 0}, {l, -half, 0}, {l, half, 0}, {-l, half, 0}, {-l, 0, high}, {l, 0, high}},
          {{4, 3, 2, 1}, {1, 2, 6, 5}, {3, 4, 5, 6}, {2, 3, 6}, {4, 1, 5}}));
  return yard.done();
}

RandomYard sheet(Random& random) {
  const Animal animal = leaper(random);
  YardText yard = low_front(random, animal, random.between(1.4, 1.9) * animal.leap_height);
  const double high = random.between(0.6, 0.98) * animal.leap_height;
  const double l = random.between(0.3, 0.8);
  yard.mesh("screen", {random.between(1.2, 2.2), random.between(0.3, 0.8)},
            obj({{-l, 0, 0}, {l, 0, 0}, {l, 0, high}, {-l, 0, high}}, {{1, 2, 3, 4}}),
            random.between(-40.0, 40.0));
  return yard.done();
}

// A block with a top of pyramids.
std::string rough_block(Random& random, double high, double rough) {
  constexpr int n = 8;
  constexpr double cell = 0.05;
  std::vector<Vec3> corners;
  for (int j = 0; j <= n; ++j)
    for (int i = 0; i <= n; ++i)
      corners.push_back({(i - n / 2) * cell, (j - n / 2) * cell,
                         high + ((i + j) % 2 == 0 ? rough : 0.0) * random.between(0.6, 1.0)});
  std::vector<std::vector<int>> faces;
  const auto id = [](int i, int j) { return j * (n + 1) + i + 1; };
  for (int j = 0; j < n; ++j)
    for (int i = 0; i < n; ++i) {
      faces.push_back({id(i, j), id(i + 1, j), id(i + 1, j + 1)});
      faces.push_back({id(i, j), id(i + 1, j + 1), id(i, j + 1)});
    }
  const int base = static_cast<int>(corners.size());
  std::vector<int> ring;
  for (int i = 0; i < n; ++i) ring.push_back(id(i, 0));
  for (int j = 0; j < n; ++j) ring.push_back(id(n, j));
  for (int i = n; i > 0; --i) ring.push_back(id(i, n));
  for (int j = n; j > 0; --j) ring.push_back(id(0, j));
  std::vector<int> bottom;
  for (const int r : ring) {
    corners.push_back(corners[static_cast<std::size_t>(r - 1)]);
    corners.back().z = 0.0;
  }
  const int m = static_cast<int>(ring.size());
  for (int k = 0; k < m; ++k) {
    const int next = (k + 1) % m;
    faces.push_back({base + k + 1, base + next + 1, ring[static_cast<std::size_t>(next)],
                     ring[static_cast<std::size_t>(k)]});
    bottom.push_back(base + m - k);
  }
  faces.push_back(bottom);
  return obj(corners, faces);
}

RandomYard rough_top(Random& random) {
  const Animal animal = leaper(random);
  YardText yard = low_front(random, animal, random.between(1.4, 1.8) * animal.leap_height);
  yard.mesh("stone", {random.between(1.2, 2.0), random.between(0.4, 0.8)},
            rough_block(random, random.between(0.6, 0.9) * animal.leap_height,
                        random.between(0.05, 0.09)));
  return yard.done();
}

RandomYard island(Random& random) {
  const Animal animal = leaper(random);
  YardText yard = low_front(random, animal, random.between(0.8, 1.25) * animal.leap_height);
  yard.add(fmt::format(
      "[[water]]\nname = \"moat\"\noutline = [[0.1, 0.1], [3.1, 0.1], [3.1, 1.5], [0.1, 1.5]]\n"
      "depth = {:.3f}\nside_slope = 60\n",
      random.between(0.3, 0.5)));
  if (random.chance(0.6))
    yard.box("stone", {random.between(0.8, 2.4), 0.6}, {0.5, 0.5, random.between(0.5, 0.9)});
  return yard.done();
}

// --- several moves

RandomYard chain(Random& random) {
  Animal animal = leaper(random);
  const double top = random.between(2.2, 2.8) * animal.leap_height;
  YardText yard = low_front(random, animal, top);
  double x = random.between(0.5, 0.9);
  double y = random.between(0.3, 0.5);
  const int count = 2 + random.below(2);
  for (int k = 0; k < count; ++k) {
    const double high = top * (count - k) / (count + 1.0) * random.between(0.9, 1.1);
    yard.box(fmt::format("stone {}", k), {x, y}, {0.4, 0.4, high}, random.between(0.0, 90.0));
    x += random.between(0.5, 0.8);
    y += random.between(0.0, 0.4);
  }
  return yard.done();
}

RandomYard downwards(Random& random) {
  Animal animal = leaper(random);
  animal.leap_distance =
      std::round(animal.leap_height * random.between(0.8, 1.8) * 1000.0) / 1000.0;
  const double top = random.between(1.3, 1.8) * animal.leap_height;
  YardText yard = low_front(random, animal, top);
  const double tower = top + random.between(0.3, 1.5);
  const double x = random.between(1.0, 2.0);
  const double y = random.between(0.6, 1.4);
  yard.box("tower", {x, y}, {0.4, 0.4, tower});
  stairs(yard, {x, y + 0.42}, tower - 0.4 * animal.leap_height, 0.5 * animal.leap_height, 0.42);
  return yard.done();
}

RandomYard downhill(Random& random) {
  const Animal animal = leaper(random);
  YardText yard = low_front(random, animal, random.between(1.1, 1.5) * animal.leap_height);
  yard.add(fmt::format(
      "[[ground.form]]\nkind = \"slope\"\nat = [1.0, 1.0]\nangle = {:.3f}\ndownhill = {:.3f}\n",
      random.between(10.0, 30.0), random.between(150.0, 210.0)));
  if (random.chance(0.5)) yard.box("block", {1.5, random.between(0.7, 1.2)}, {0.4, 0.4, 0.4});
  return yard.done();
}

// --- climbers

RandomYard lip(Random& random) {
  Animal animal = climber(random);
  animal.reach = random.between(0.2, 0.5);
  const double length = random.between(0.05, 0.9);
  YardText yard = low_front(random, animal, random.between(1.4, 2.0), "mesh",
                            fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n",
                                        length, random.between(0.0, 80.0)));
  return yard.done();
}

RandomYard vestibule(Random& random) {
  const Animal animal = climber(random);
  YardText yard = low_front(
      random, animal, random.between(1.8, 2.1), "mesh",
      fmt::format("overhang = {{ length = {:.3f}, angle = 20.0 }}\n", random.between(0.5, 0.9)));
  yard.add(fmt::format(
      "[[boundary.gate]]\nname = \"gate\"\nedge = 0\nfrom = {:.3f}\nwidth = 0.9\nheight = {:.3f}\n"
      "under_gap = 0.01\nvestibule = {{ depth = 0.9, second_gate = true, window = true }}\n",
      random.between(0.6, 1.6), random.between(1.4, 1.75)));
  if (random.chance(0.6))
    yard.box("block", {random.between(0.8, 2.4), random.between(1.0, 1.6)},
             {0.4, 0.4, random.between(0.6, 1.4)});
  yard.margin = 2.6;
  return yard.done();
}

// --- nothing hidden: the two must agree

RandomYard plain(Random& random) {
  const Animal animal = leaper(random);
  YardText yard = low_front(random, animal, random.between(0.8, 1.6) * animal.leap_height, "solid",
                            some_overhang(random));
  const int count = random.below(3);
  for (int k = 0; k < count; ++k)
    yard.box(fmt::format("block {}", k), {0.8 + 0.9 * k, random.between(0.5, 1.2)},
             {0.4, 0.5, random.between(0.2, 0.9) * animal.leap_height}, random.between(0.0, 90.0));
  return yard.done();
}

using Maker = RandomYard (*)(Random&);
const std::vector<std::pair<std::string, Maker>>& makers() {
  static const std::vector<std::pair<std::string, Maker>> all = {{"plain", plain},
                                                                 {"flush-box", flush_box},
                                                                 {"flush-tip", flush_tip},
                                                                 {"flush-shelf", flush_shelf},
                                                                 {"flush-house", flush_house},
                                                                 {"crouching", crouching},
                                                                 {"corner", corner},
                                                                 {"joint", joint},
                                                                 {"house-wall", house_wall},
                                                                 {"stepped", stepped},
                                                                 {"crown", crown},
                                                                 {"roof-edge", roof_edge},
                                                                 {"ridge", ridge},
                                                                 {"sheet", sheet},
                                                                 {"rough-top", rough_top},
                                                                 {"island", island},
                                                                 {"chain", chain},
                                                                 {"downwards", downwards},
                                                                 {"downhill", downhill},
                                                                 {"lip", lip},
                                                                 {"vestibule", vestibule}};
  return all;
}

}  // namespace

const std::vector<std::string>& families() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> out;
    for (const auto& [name, maker] : makers()) out.push_back(name);
    return out;
  }();
  return names;
}

RandomYard random_yard(const std::string& family, unsigned seed) {
  for (const auto& [name, maker] : makers())
    if (name == family) {
      Random random(seed * 1000003ULL + 17);
      RandomYard yard = maker(random);
      yard.family = family;
      yard.seed = seed;
      return yard;
    }
  throw std::runtime_error("no family " + family);
}

}  // namespace hummock::witness

#include <algorithm>

#include "tests/witness/families.h"

namespace hummock::witness {
namespace {

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
  constexpr double half = 0.5 * n;
  std::vector<Vec3> corners;
  for (int j = 0; j <= n; ++j)
    for (int i = 0; i <= n; ++i)
      corners.push_back({(i - half) * cell, (j - half) * cell,
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
  ring.reserve(4U * n);
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

// m above a take-off at distance r that an edge asks the effort e for.
double rise_that_asks(const Animal& animal, double r, double e) {
  const double x = animal.stretch() * r;
  return e - x * x / (4.0 * e);
}

// The low sides are the front alone, or the front and the side it meets in a mitre.
YardText lipped(Random& random, const Animal& animal, double top, double length, double angle) {
  YardText yard(rectangle(random.between(3.2, 4.2), random.between(3.4, 4.2)), animal);
  const bool corner = random.chance(0.4);
  yard.section("front", corner ? "0, 3" : "0", "mesh", top,
               fmt::format("overhang = {{ length = {:.3f}, angle = {:.3f} }}\n", length, angle));
  yard.section("rest", corner ? "1, 2" : "1, 2, 3", kHigh, kHighWall);
  return yard;
}

// The way round the tip from a hold below it rises to the end: with its highest point at the tip it
// asks s·r of an animal on its feet, and 1/cling of that from the mesh.
RandomYard lip_from_the_mesh(Random& random, Animal animal, double share) {
  animal.cling = random.between(0.45, 0.9);
  const double angle = random.between(-15.0, 45.0);
  const double out = share * animal.leap_height * animal.cling / animal.stretch();
  const double length = std::max(1.1 * animal.reach, out / std::cos(angle * geom::kDegree)) *
                        random.between(0.7, 1.1);
  return lipped(random, animal, random.between(1.4, 2.0), length, angle).done();
}

// A block before the lip, or with its edge a little below it.
RandomYard lip_from_a_block(Random& random, Animal animal, double share) {
  animal.cling = 0.0;
  const double angle = random.between(-15.0, 55.0) * geom::kDegree;
  const double length = animal.reach + random.between(0.1, 0.5);
  const double before = random.chance(0.7) ? random.between(0.05, 0.5) : random.between(-0.2, 0.0);
  const double block = random.between(0.5, 0.9) * animal.leap_height;
  const double rise = rise_that_asks(animal, std::abs(before), share * animal.leap_height);
  const double tip = length * std::cos(angle);
  YardText yard = lipped(random, animal, block + rise - length * std::sin(angle), length,
                         angle / geom::kDegree);
  yard.box("block", {random.between(0.8, 2.2), std::max(tip + before, 0.02) + 0.2},
           {0.5, 0.4, block});
  return yard.done();
}

RandomYard lip(Random& random) {
  // Mostly out of its reach, and what the cheapest leap asks lies on both sides of its leap and of
  // the margin of the brief.
  Animal animal = climber(random);
  animal.reach = random.between(0.12, 0.3);
  const double share = random.between(0.75, 1.35);
  return random.chance(0.5) ? lip_from_the_mesh(random, animal, share)
                            : lip_from_a_block(random, animal, share);
}

RandomYard vestibule(Random& random) {
  // A block before the gate, from which the tip over its head is the nearest way out.
  const Animal animal = climber(random);
  const double top = random.between(1.3, 1.7) * animal.leap_height;
  const double length = random.between(0.15, 0.4);
  YardText yard =
      low_front(random, animal, top, "mesh",
                fmt::format("overhang = {{ length = {:.3f}, angle = 20.0 }}\n", length));
  const double from = random.between(0.6, 1.6);
  yard.add(fmt::format(
      "[[boundary.gate]]\nname = \"gate\"\nedge = 0\nfrom = {:.3f}\nwidth = 0.9\nheight = {:.3f}\n"
      "under_gap = 0.01\nvestibule = {{ depth = 0.9, second_gate = true, window = true }}\n",
      from, top * random.between(0.8, 0.97)));
  yard.box("block", {from + 0.45, length + 0.2 + random.between(0.1, 0.6)},
           {0.4, 0.4, random.between(0.4, 0.9) * animal.leap_height});
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

}  // namespace

Makers thing_families() {
  return {{"crown", crown}, {"roof-edge", roof_edge}, {"ridge", ridge},
          {"sheet", sheet}, {"rough-top", rough_top}, {"island", island},
          {"chain", chain}, {"downwards", downwards}, {"downhill", downhill},
          {"lip", lip},     {"vestibule", vestibule}, {"plain", plain}};
}

}  // namespace hummock::witness

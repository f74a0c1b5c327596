#include "geometry/terrain/depression_fill.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <random>

#include "tests/support/paths.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::Depressions;
using geom::FillOptions;
using geom::Heightfield;
using geom::Neighbours;
using geom::Vec2;
constexpr double kInf = std::numeric_limits<double>::infinity();

// What tests/data/ponding/make_reference.py wrote: the ground and its two fillings by skimage.
struct Reference {
  Heightfield ground;
  std::vector<double> six, eight;
};
Reference read_reference(const std::string& name) {
  std::ifstream in(std::filesystem::path(tests::test_data()) / "ponding" / name);
  Reference r;
  in >> r.ground.grid.nx >> r.ground.grid.ny;
  for (std::vector<double>* v : {&r.ground.z, &r.six, &r.eight}) {
    v->resize(r.ground.grid.size());
    for (double& z : *v) in >> z;
  }
  if (!in) throw std::runtime_error("cannot read " + name);
  return r;
}

// The definition, slowly: lower every level to the best neighbour's until nothing changes.
std::vector<double> fill_slowly(const Heightfield& h, const FillOptions& options) {
  const geom::Grid& g = h.grid;
  std::vector<double> level(g.size(), kInf);
  for (int j = 0; j < g.ny; ++j)
    for (int i = 0; i < g.nx; ++i)
      if (i == 0 || j == 0 || i == g.nx - 1 || j == g.ny - 1) level[g.index(i, j)] = h.at(i, j);
  for (const std::size_t n : options.outlets) level[n] = h.z[n];
  const auto need = [&](std::size_t a, std::size_t b) {
    double w = -kInf;
    for (const geom::Crossing& c : options.crossings)
      if ((c.a == a && c.b == b) || (c.a == b && c.b == a)) w = std::max(w, c.level);
    return w;
  };
  for (bool changed = true; changed;) {
    changed = false;
    for (int j = 0; j < g.ny; ++j)
      for (int i = 0; i < g.nx; ++i)
        for (int dj = -1; dj <= 1; ++dj)
          for (int di = -1; di <= 1; ++di) {
            if ((di == 0 && dj == 0) || !g.holds(i + di, j + dj)) continue;
            if (options.neighbours == Neighbours::triangulated && di == dj) continue;
            const std::size_t n = g.index(i, j), m = g.index(i + di, j + dj);
            const double to = std::max({level[m], h.z[n], need(n, m)});
            if (to < level[n]) {
              level[n] = to;
              changed = true;
            }
          }
  }
  return level;
}

TEST(DepressionFill, AgreesWithSkimagesReconstructionByErosionNodeForNode) {
  FillOptions eight;
  eight.neighbours = Neighbours::eight;
  for (const char* name : {"volcano.txt", "rough.txt"}) {
    const Reference r = read_reference(name);
    EXPECT_EQ(geom::fill_depressions(r.ground), r.six) << name;
    EXPECT_EQ(geom::fill_depressions(r.ground, eight), r.eight) << name;
    EXPECT_NE(r.six, r.ground.z) << name << " has nothing to fill";
  }
}

TEST(DepressionFill, AgreesWithTheDefinitionOnRandomGroundsWithWallsAndOutlets) {
  std::mt19937 rng(99);
  for (int round = 0; round < 200; ++round) {
    SCOPED_TRACE("seed 99, round " + std::to_string(round));
    Heightfield h;
    h.grid = {0, 0, 1, 3 + static_cast<int>(rng() % 9), 3 + static_cast<int>(rng() % 9)};
    for (std::size_t n = 0; n < h.grid.size(); ++n) h.z.push_back(static_cast<double>(rng() % 8));
    FillOptions o;
    if (round % 3 == 0) o.neighbours = Neighbours::eight;
    if (round % 2 == 0) o.outlets.push_back(rng() % h.grid.size());
    for (unsigned k = 0; k < rng() % 40; ++k) {
      const int i = static_cast<int>(rng() % static_cast<unsigned>(h.grid.nx - 1));
      const int j = static_cast<int>(rng() % static_cast<unsigned>(h.grid.ny - 1));
      const bool up = rng() % 2 == 0;
      o.crossings.push_back({h.grid.index(i, j),
                             up ? h.grid.index(i, j + 1) : h.grid.index(i + 1, j),
                             rng() % 4 == 0 ? kInf : static_cast<double>(rng() % 12)});
    }
    ASSERT_EQ(geom::fill_depressions(h, o), fill_slowly(h, o));
  }
}

TEST(DepressionFill, FillingAFilledGroundChangesNothing) {
  Heightfield h = tests::volcano();
  h.z = geom::fill_depressions(h);
  EXPECT_EQ(geom::fill_depressions(h), h.z);
}

TEST(DepressionFill, AConeBasinFillsToItsRimWithAThirdOfTheCylinder) {
  // Radius 2, depth 0.6 in level ground: π r² d / 3. The facets' rim is off by O(cell²).
  for (const double cell : {0.1, 0.05, 0.025}) {
    const Heightfield h = tests::surface({-3, -3}, {3, 3}, cell, [](double x, double y) {
      return std::min(0.0, 0.6 * (std::hypot(x, y) / 2.0 - 1.0));
    });
    const Depressions d = geom::find_depressions(h, geom::fill_depressions(h));
    ASSERT_EQ(d.list.size(), 1U);
    EXPECT_NEAR(d.list[0].depth, 0.6, 1e-12);
    const double off = std::abs(d.list[0].volume_m3 / (geom::kPi * 4.0 * 0.6 / 3.0) - 1.0);
    EXPECT_LT(off, 0.3 * cell * cell);
    EXPECT_NEAR(d.list[0].area_m2, geom::kPi * 4.0, 8.0 * cell);
  }
}

TEST(DepressionFill, ABowlAndASphericalCapHoldTheirClosedForms) {
  // Closed forms: paraboloid r 3, d 0.6: π r² d/2 = 8.482300; cap a = 3, h = 0.6: 8.595398.
  const double sphere = (9.0 + 0.36) / 1.2;
  const Heightfield bowl = tests::surface({-4, -4}, {4, 4}, 0.05, [](double x, double y) {
    return std::min(0.0, 0.6 * ((x * x + y * y) / 9.0 - 1.0));
  });
  const Heightfield cap = tests::surface({-4, -4}, {4, 4}, 0.05, [&](double x, double y) {
    const double d2 = x * x + y * y;
    return d2 >= 9.0 ? 0.0 : sphere - 0.6 - std::sqrt(sphere * sphere - d2);
  });
  const auto volume = [](const Heightfield& h) {
    return geom::find_depressions(h, geom::fill_depressions(h)).list.at(0).volume_m3;
  };
  EXPECT_NEAR(volume(bowl), 8.482300, 8.5e-3);
  EXPECT_NEAR(volume(cap), 8.595398, 8.6e-3);
}

TEST(DepressionFill, AShorePondIsCutExactlyAtItsWaterLine) {
  // One pit of depth 1 under level 0 in a ground at +1: on each of its six triangles the water ends
  // half way. Area of the six triangles 3, of the half-size ones 3/4; volume 3/4 · 1/3.
  Heightfield h = geom::level_ground({{0, 0}, {4, 4}}, 1.0, 1.0);
  h.at(2, 2) = -1.0;
  const std::vector<double> level(h.grid.size(), 1.0);
  std::vector<double> filled = h.z;
  filled[h.grid.index(2, 2)] = 0.0;
  const Depressions d = geom::find_depressions(h, filled);
  ASSERT_EQ(d.list.size(), 1U);
  EXPECT_DOUBLE_EQ(d.list[0].area_m2, 0.75);
  EXPECT_DOUBLE_EQ(d.list[0].volume_m3, 0.25);
  // Only the upper half of it inside a polygon.
  const geom::Polygon upper = tests::rectangle(0, 2, 4, 4);
  const auto in_upper = [&](Vec2 p) { return geom::contains(upper, p); };
  EXPECT_DOUBLE_EQ(geom::find_depressions(h, filled, in_upper).list[0].area_m2, 0.375);
}

TEST(DepressionFill, WaterBehindAWallStandsAtTheWallsTopOrItsDrain) {
  // A slope down to x = 10 with a wall between x = 5 and 6: level 5.7 at its top.
  const Heightfield h =
      tests::surface({0, 0}, {10, 6}, 1.0, [](double x, double) { return 10.0 - x; });
  FillOptions wall;
  for (int j = 0; j <= 6; ++j) {
    wall.crossings.push_back({h.grid.index(5, j), h.grid.index(6, j), 5.7});
    if (j < 6) wall.crossings.push_back({h.grid.index(6, j), h.grid.index(5, j + 1), 5.7});
  }
  // Its ends are the grid's rim, where water runs off: inside, the pond leaves round them only
  // over nodes at least as high as the rim's.
  const auto level = geom::fill_depressions(h, wall);
  EXPECT_DOUBLE_EQ(level[h.grid.index(5, 3)], 5.0);  // drains along the wall to the rim
  Heightfield dyke = h;
  for (int i = 0; i <= 5; ++i) dyke.at(i, 0) = dyke.at(i, 6) = 20.0;
  EXPECT_DOUBLE_EQ(geom::fill_depressions(dyke, wall)[h.grid.index(5, 3)], 5.7);
  for (geom::Crossing& c : wall.crossings)
    if (c.a == h.grid.index(5, 3) && c.b == h.grid.index(6, 3)) c.level = 5.2;  // the drain's sill
  EXPECT_DOUBLE_EQ(geom::fill_depressions(dyke, wall)[h.grid.index(5, 3)], 5.2);
}

}  // namespace
}  // namespace hummock

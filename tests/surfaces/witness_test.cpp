// Against points thrown at random (seeded), each judged by the words of surfaces.h with polygons
// alone; and that turning, shifting and refining a yard change nothing.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/surfaces/surfaces.h"
#include "tests/surfaces/small_yards.h"

namespace hummock {
namespace {

using test::add_surface;

constexpr double kSide = 12.0;

Polygon around(Vec2 middle, double radius, int corners, double turn) {
  Polygon out;
  for (int k = 0; k < corners; ++k) {
    const double a = turn + 2.0 * geom::kPi * k / corners;
    out.push_back(middle + Vec2{std::cos(a), std::sin(a)} * radius);
  }
  return out;
}

// Surfaces that overlap at random on a level yard with stones and a pool, all upright boxes.
Site drawn(std::mt19937& random) {
  const auto any = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  Site site = test::yard(kSide, kSide, 2.0);
  for (int k = 0; k < 9; ++k) {
    const auto material = static_cast<Material>(random() % surfaces::kMaterials);
    const std::optional<double> depth =
        random() % 4 == 0 ? std::nullopt : std::optional(any(0.05, 1.5));
    add_surface(site, material,
                around({any(1, 11), any(1, 11)}, any(0.5, 3.0), 3 + static_cast<int>(random() % 5),
                       any(0, 6)),
                depth);
  }
  for (int k = 0; k < 3; ++k)
    test::add_box(site, "box " + std::to_string(k), {any(2, 10), any(2, 10)},
                  {any(0.3, 1.5), any(0.3, 1.5), 0.4});
  return site;
}

bool in_box(const Object& box, Vec2 p) {
  return std::abs(p.x - box.at.x) <= 0.5 * box.size.x &&
         std::abs(p.y - box.at.y) <= 0.5 * box.size.y;
}

struct Witness {
  double ground = 0.0, unsaid = 0.0, dig_30 = 0.0, depth_30 = 0.0;
  std::array<double, surfaces::kMaterials> material{};
};

Witness thrown(const Site& site, std::mt19937& random, int points) {
  std::uniform_real_distribution<double> along(0.0, kSide);
  Witness w;
  const double each = kSide * kSide / points;
  for (int n = 0; n < points; ++n) {
    const Vec2 p{along(random), along(random)};
    bool free = true;
    for (const Object& box : site.objects) free = free && !in_box(box, p);
    if (!free) continue;
    w.ground += each;
    const Surfacing* top = nullptr;
    for (const Surfacing& s : site.surfaces)
      if (geom::contains(s.outline, p)) top = &s;
    if (top == nullptr) {
      w.unsaid += each;
      continue;
    }
    w.material[static_cast<std::size_t>(top->material)] += each;
    if (surfaces::is_dug(top->material) && top->depth && *top->depth >= 0.3) {
      w.dig_30 += each;
      w.depth_30 += each * *top->depth;
    }
  }
  return w;
}

// The points' own scatter (4 sigma of a share of a half: 4 · 144 / (2 √400 000) = 0.46 m²) and ours
// (outlines of 40 m, half a point off, by chance either way: 0.3 m² at most seen by a tenth).
TEST(SurfacesWitness, PointsThrownAtRandomTellTheSameAreas) {
  for (const unsigned seed : {11U, 12U, 13U, 14U}) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const Site site = drawn(random);
    const surfaces::Result r = surfaces::analyse(test::built(site));
    const Witness w = thrown(site, random, 400000);
    constexpr double kOff = 0.6;  // m²
    EXPECT_NEAR(r.ground_m2, w.ground, kOff);
    EXPECT_NEAR(r.unsaid_m2, w.unsaid, kOff);
    double sum = r.unsaid_m2;
    for (std::size_t m = 0; m < surfaces::kMaterials; ++m) {
      EXPECT_NEAR(r.materials[m].area_m2, w.material[m], kOff) << m;
      sum += r.materials[m].area_m2;
    }
    EXPECT_NEAR(sum, r.ground_m2, 1e-9);
    // Beside the boxes a strip narrower than the body is not lived on: up to a cell of their rims.
    const double rims = 4.0 * 3 * 1.5 * 0.1;
    EXPECT_LE(r.digs[1].area_m2, w.dig_30 + kOff);
    EXPECT_GE(r.digs[1].area_m2, w.dig_30 - kOff - rims);
    ASSERT_GT(w.dig_30, 2.0) << "the case asks nothing";
    EXPECT_NEAR(*r.digs[1].mean_m, w.depth_30 / w.dig_30, 0.05);
  }
}

Site two_pits() {
  Site site = test::yard(10, 8, 2.0);
  add_surface(site, Material::sand, {{1, 1}, {6, 1.5}, {3, 6}}, 1.0);
  add_surface(site, Material::concrete, around({6, 5}, 1.7, 7, 0.3));
  test::add_box(site, "crate", {3.0, 3.0}, {0.8, 0.5, 0.4});
  test::add_planting(site, {{5, 1}, {9, 1}, {9, 7}}, 1.4, 0.6);
  return site;
}

void expect_alike(const surfaces::Result& a, const surfaces::Result& b, double off) {
  for (std::size_t m = 0; m < surfaces::kMaterials; ++m)
    EXPECT_NEAR(a.materials[m].area_m2, b.materials[m].area_m2, off) << m;
  EXPECT_NEAR(a.dig.area_m2, b.dig.area_m2, off);
  EXPECT_NEAR(a.plants.in_leaf.all, b.plants.in_leaf.all, off / 80.0);
}

TEST(SurfacesWitness, ShiftingTheYardFarAwayChangesNothing) {
  Site there = two_pits();
  const Vec2 by{432100.0, 5210400.0};
  for (Vec2& p : there.boundary.outline) p = p + by;
  for (Surfacing& s : there.surfaces)
    for (Vec2& p : s.outline) p = p + by;
  for (Planting& s : there.plantings)
    for (Vec2& p : s.outline) p = p + by;
  there.objects[0].at = there.objects[0].at + by;
  expect_alike(surfaces::analyse(test::built(two_pits())), surfaces::analyse(test::built(there)),
               1e-6);
}

// A quarter turn: (x, y) → (8 − y, x).
TEST(SurfacesWitness, TurningTheYardChangesLittle) {
  const Site site = two_pits();
  const auto turned = [](Polygon outline) {
    for (Vec2& p : outline) p = {8.0 - p.y, p.x};
    return outline;
  };
  Site other = test::yard(8, 10, 2.0);
  other.surfaces = site.surfaces;
  other.plantings = site.plantings;
  for (Surfacing& s : other.surfaces) s.outline = turned(s.outline);
  for (Planting& s : other.plantings) s.outline = turned(s.outline);
  test::add_box(other, "crate", {5.0, 3.0}, {0.5, 0.8, 0.4});
  expect_alike(surfaces::analyse(test::built(site)), surfaces::analyse(test::built(other)), 0.25);
}

TEST(SurfacesWitness, AFinerGroundChangesLittle) {
  Site fine = two_pits();
  fine.ground.cell = 0.05;
  const surfaces::Result r = surfaces::analyse(test::built(fine));
  EXPECT_NEAR(r.apart_m, 0.05, 1e-12);
  expect_alike(surfaces::analyse(test::built(two_pits())), r, 0.25);
}

}  // namespace
}  // namespace hummock

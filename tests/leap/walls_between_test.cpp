// How high a flight must come to get from one part of the ground to another: against flights shot
// at random, none of which gets there lower.
#include "engine/leap/search/walls_between.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/leap/leap.h"
#include "engine/leap/places/site_places.h"
#include "engine/leap/search/site_search.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kStep = 0.1, kLimit = 2.0;

struct Parted {
  Model model;
  std::vector<PatchPtr> patches;
};

Parted parted(const Site& site) {
  Parted out{test::built(site), {}};
  Settings settings;
  settings.resolution = kStep;
  const PlaceRules rules = place_rules(out.model.site.species, settings);
  out.patches = site_places(out.model, rules, link_rules(rules.ability, settings)).all();
  return out;
}

// 8 × 8 m, parted from fence to fence by a wall; it starts in the south.
Site walled(double thick, double height, double turn = 0.0) {
  Site site = test::yard(8, 8, 3.0, SheetKind::solid);
  site.leap_start = Vec2{1.0, 1.0};
  test::add_box(site, "wall", {4, 4}, {10.0, thick, height}).turn = turn;
  return site;
}

int ground_with(const Parted& yard, Vec2 p) {
  for (std::size_t k = 0; k < yard.patches.size(); ++k) {
    if (yard.patches[k]->kind != PatchKind::ground) continue;
    for (const SurfacePiece& s : yard.patches[k]->pieces)
      if (p.x >= s.cell.lo.x && p.x <= s.cell.hi.x && p.y >= s.cell.lo.y && p.y <= s.cell.hi.y)
        return static_cast<int>(k);
  }
  return -1;
}

double to_the_north(const Parted& yard) {
  const int north = ground_with(yard, {4.0, 7.0});
  if (north < 1) return std::nan("");
  return WallsBetween(yard.model, yard.patches, kStep, kLimit)
      .from(0)[static_cast<std::size_t>(north)];
}

TEST(WallsBetween, IsTheHeightOfAWallHoweverThinAndAskew) {
  for (const double thick : {0.02, 0.3, 1.0})
    for (const double turn : {0.0, 0.12, -0.3}) {
      const double height = to_the_north(parted(walled(thick, 1.5, turn)));
      EXPECT_LE(height, 1.5) << thick << " " << turn;
      EXPECT_GE(height, 1.5 - (WallsBetween::kSlack + 1.0) * kStep) << thick << " " << turn;
    }
}

TEST(WallsBetween, IsNothingWhereAGapIsLeft) {
  Site site = walled(0.3, 1.5);
  site.objects.front().size.x = 7.0;  // half a metre at either end
  const Parted yard = parted(site);
  EXPECT_EQ(ground_with(yard, {4.0, 7.0}), 0);
  EXPECT_FALSE(WallsBetween(yard.model, yard.patches, kStep, kLimit).any());
}

TEST(WallsBetween, IsTheLowestPlaceOfAWall) {
  Site site = walled(0.3, 1.8);
  site.objects.front().size.x = 6.0;
  test::add_box(site, "low", {7.5, 4}, {3.0, 0.3, 0.9});
  test::add_box(site, "high", {0.5, 4}, {3.0, 0.3, 1.8});
  const double height = to_the_north(parted(site));
  EXPECT_LE(height, 0.9);
  EXPECT_GE(height, 0.9 - (WallsBetween::kSlack + 1.0) * kStep);
}

// A wall of boxes and of boulders in each other, as tall as they happen to be.
Site patched_wall(std::mt19937& random) {
  std::uniform_real_distribution<double> u(0.0, 1.0);
  Site site = walled(0.1, 0.3 + 0.4 * u(random));
  for (int k = 0; k < 12; ++k) {
    const std::string name = "stone " + std::to_string(k);
    const Vec2 at{0.35 + 0.66 * k, 3.9 + 0.2 * u(random)};
    if (u(random) < 0.3)
      test::add_box(site, name, at, {0.7, 0.05 + 0.3 * u(random), 0.8 + 0.8 * u(random)});
    else
      test::add_boulder(site, name, at, {1.0, 0.8, 0.5 + 1.2 * u(random)},
                        static_cast<std::uint32_t>(k + 1));
  }
  return site;
}

bool free_throw(const Model& model, Vec3 p, Vec3 q, double top) {
  Vec3 before = p;
  for (int k = 1; k <= 30; ++k) {
    const double t = k / 30.0;
    const Vec3 next = geom::lerp(p, q, t) + Vec3{0.0, 0.0, 4.0 * top * t * (1.0 - t)};
    if (!model.body_scene->segment_free(before, next)) return false;
    before = next;
  }
  return true;
}

// Throws from place to place: where one gets across free, its top is no lower than what was said.
TEST(WallsBetween, NoThrowGetsAcrossLower) {
  std::mt19937 random(23);
  std::uniform_real_distribution<double> u(0.0, 1.0);
  int across = 0;
  for (int number = 0; number < 8; ++number) {
    const Parted yard = parted(patched_wall(random));
    const int north = ground_with(yard, {4.0, 7.0});
    ASSERT_GT(north, 0) << number;
    const double least = to_the_north(yard);
    EXPECT_GT(least, 0.05) << number;
    const auto any_of = [&](int patch) {
      const auto& pieces = yard.patches[static_cast<std::size_t>(patch)]->pieces;
      return pieces[random() % pieces.size()].at;
    };
    for (int shot = 0; shot < 3000; ++shot) {
      const Vec3 p = any_of(0), q = any_of(north);
      const double top = 0.2 + 1.6 * u(random);  // of a throw from level to level
      if (geom::distance(p, q) > 2.5 || !free_throw(yard.model, p, q, top)) continue;
      ++across;
      EXPECT_GE(top, least) << "yard " << number << ", shot " << shot;
    }
  }
  EXPECT_GT(across, 100);
}

// What it is for: the demand of a yard parted by a wall is the wall's height, with the search run
// to its end.
TEST(WallsBetween, AWallIsFlownOverAndNotThrough) {
  Site site = walled(0.3, 1.2);
  test::split_sections(site);
  for (Section& s : site.boundary.sections) s.surface = "smooth";
  site.boundary.sections[2].height = 0.5;
  site.objects.front().surface = "smooth";
  const Model model = test::built(site);
  Settings settings;
  settings.resolution = kStep;
  settings.search_limit = 2.5;
  const Result found = analyse(model, settings);
  ASSERT_TRUE(found.escape_leap_m);
  EXPECT_LE(*found.escape_leap_m, 1.2 + 1e-9);
  EXPECT_GE(*found.escape_leap_m, 1.2 - (WallsBetween::kSlack + 1.0) * kStep);
}

}  // namespace
}  // namespace hummock::leap

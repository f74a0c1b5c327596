// The fast search against a witness that tries all pairs of the very same pieces, one by one.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "engine/leap/ground/unfolded.h"
#include "engine/leap/leap.h"
#include "engine/leap/places/places.h"
#include "engine/leap/places/site_places.h"
#include "engine/leap/search/flight_tests.h"
#include "engine/leap/search/minimax.h"
#include "engine/leap/search/over_walls.h"
#include "engine/leap/search/site_search.h"
#include "engine/leap/search/walls_between.h"
#include "tests/leap/random_small_yard.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

double least_of_pair(const LinkRules& rules, const geom::RayScene& scene, const SurfacePiece& p,
                     const SurfacePiece& q, double below) {
  const double bound = link_bound(rules, p.cell, !p.cling, q.cell, q.hook);
  if (!(bound < below) || within_step_over(rules, p, q)) return bound;
  const Arc least = least_arc(rules, p, q);
  const Ends ends = ends_of(rules, q);
  const int first = way_found(scene, rules, least, p, q, Side::steeper, 0);
  if (way_of(first) != Way::blocked) return bound;
  const double share = share_at(least, rules.chord_error, first);
  const double cost = cost_of_takeoff(rules.ability, !p.cling);
  double best = kInfinite;
  for (const Side side : {Side::steeper, Side::flatter}) {
    double blocked_at = share;
    double floor = bound;  // keys never fall along the ladder
    for (int k = 1;; ++k) {
      if (!(effort_onward(rules, rung(rules, least, side, k), side) * cost <= rules.limit)) break;
      // As the queue keeps shares: in float.
      blocked_at = static_cast<double>(static_cast<float>(blocked_at));
      floor = std::max(floor, rung_bound(rules, least, p, q, side, k - 1, blocked_at));
      const Arc arc = rung(rules, least, side, k);
      const int found = way_found(scene, rules, arc, p, q, side, k);
      if (way_of(found) == Way::blocked) {
        blocked_at = share_at(arc, rules.chord_error, found);
        continue;
      }
      if (way_of(found) != Way::straight) {  // beside a corner
        best = std::min(best, floor);
        break;
      }
      double blocked = k - 1;
      double free = k;
      while (free - blocked > 0.125) {
        const double middle = 0.5 * (free + blocked);
        const bool ok =
            arc_free(scene, rung(rules, least, side, middle), rules.chord_error, ends, &blocked_at);
        (ok ? free : blocked) = middle;
      }
      best = std::min(best,
                      std::max(floor, rung_bound(rules, least, p, q, side, blocked, blocked_at)));
      break;
    }
  }
  return best;
}

std::vector<double> required_leaps_over_all_pairs(const std::vector<PatchPtr>& patches,
                                                  const LinkRules& rules,
                                                  const geom::RayScene& scene) {
  std::vector<double> required_leap(patches.size(), kInfinite);
  std::vector<char> done(patches.size(), 0);
  required_leap[0] = 0.0;
  for (;;) {
    std::size_t next = patches.size();
    for (std::size_t k = 0; k < patches.size(); ++k) {
      if (done[k] == 0 && required_leap[k] <= rules.limit &&
          (next == patches.size() || required_leap[k] < required_leap[next])) {
        next = k;
      }
    }
    if (next == patches.size()) return required_leap;
    done[next] = 1;
    if (is_exit(*patches[next])) continue;
    for (std::size_t t = 0; t < patches.size(); ++t) {
      if (done[t] != 0) continue;
      for (const SurfacePiece& p : patches[next]->pieces) {
        for (const SurfacePiece& q : patches[t]->pieces) {
          const double e = least_of_pair(rules, scene, p, q, required_leap[t]);
          required_leap[t] = std::min(required_leap[t], std::max(required_leap[next], e));
        }
      }
    }
  }
}

// The ground folded: the search lays what it comes to.
std::vector<PatchPtr> all_patches(const Model& model, const PlaceRules& places) {
  std::vector<PatchPtr> raised;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const auto own = part_places(model, static_cast<int>(k), places);
    raised.insert(raised.end(), own.begin(), own.end());
  }
  const auto ways = exits(model, places);
  raised.insert(raised.end(), ways.begin(), ways.end());
  std::vector<PatchPtr> patches = ground_places(model, places, 0).patches;
  patches.insert(patches.end(), raised.begin(), raised.end());
  return patches;
}

LinkRules rules_for(const PlaceRules& places, double resolution) {
  LinkRules links;
  links.ability = places.ability;
  links.limit = 2.0 * places.ability.height;
  links.step = resolution;
  links.step_over_gap = 0.5 * resolution;
  links.chord_error = 0.25 * resolution;
  return links;
}

TEST(BruteForce, BranchAndBoundGivesTheLeastOverAllPairsOfItsPieces) {
  for (unsigned seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Model model = test::built(random_yard(seed));
    const double resolution = 0.16;
    const PlaceRules places = place_rules(model.site.species, resolution, false);
    const LinkRules links = rules_for(places, resolution);
    const std::vector<PatchPtr> patches = all_patches(model, places);
    Quest quest;
    quest.starts = {{0, 0.0}};
    for (std::size_t k = 1; k < patches.size(); ++k) quest.targets.push_back(static_cast<int>(k));
    const SearchResult fast = search(patches, quest, *model.body_scene, links);
    std::vector<PatchPtr> laid;
    laid.reserve(patches.size());
    for (const PatchPtr& p : patches) laid.push_back(unfolded(p));
    const std::vector<double> slow = required_leaps_over_all_pairs(laid, links, *model.body_scene);
    ASSERT_EQ(fast.assumed, 0);
    for (std::size_t k = 0; k < patches.size(); ++k) {
      if (slow[k] > links.limit) {
        EXPECT_FALSE(fast.patches[k].is()) << patches[k]->name;
      } else {
        EXPECT_NEAR(fast.patches[k].required_leap, slow[k], 1e-12) << patches[k]->name;
      }
    }
  }
}

// How high a flight must come to get from one part of the ground to another: against flights shot
// at random, none of which gets there lower.

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
  for (const PatchPtr& p : site_places(out.model, rules).all()) out.patches.push_back(unfolded(p));
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

// The same for the effort from where it is thrown (level to level, a plain throw: arcs.h, 2).
TEST(OverWalls, NoThrowGetsAcrossForLess) {
  std::mt19937 random(29);
  std::uniform_real_distribution<double> u(0.0, 1.0);
  int across = 0;
  for (int number = 0; number < 6; ++number) {
    const Parted yard = parted(patched_wall(random));
    const int north = ground_with(yard, {4.0, 7.0});
    ASSERT_GT(north, 0) << number;
    LinkRules rules = rules_for(place_rules(yard.model.site.species, kStep, false), kStep);
    rules.ability.stretch = 1.0;
    rules.ability.reach = 0.0;
    const KnownWalls::Ask ask = [&] {
      return WallsBetween(yard.model, yard.patches, kStep, kLimit);
    };
    const Unfolded places(yard.patches);
    OverWalls over(yard.patches, places, rules, ask);
    over.ask();
    const auto& here = yard.patches[0]->pieces;
    const auto& there = yard.patches[static_cast<std::size_t>(north)]->pieces;
    for (int shot = 0; shot < 3000; ++shot) {
      const std::size_t i = random() % here.size(), j = random() % there.size();
      const double top = 0.2 + 1.6 * u(random);
      const double r = geom::distance(here[i].at, there[j].at);
      if (r > 2.5 || !free_throw(yard.model, here[i].at, there[j].at, top)) continue;
      ++across;
      EXPECT_LE(over.of_pieces(0, static_cast<int>(i), north, static_cast<int>(j)),
                arc_effort(r, 0.0, 4.0 * top) + kLift)
          << "yard " << number << ", shot " << shot;
    }
  }
  EXPECT_GT(across, 80);
}

// Of a wall of 1.5 m and 0.3 m thick: over its front at least e(r, 1.5), less what the lattice
// leaves out, and no more than over its back.
TEST(OverWalls, IsTheEffortToTheWallFromWhereItIsLeft) {
  const Parted yard = parted(walled(0.3, 1.5));
  const int north = ground_with(yard, {4.0, 7.0});
  ASSERT_GT(north, 0);
  const LinkRules rules = rules_for(place_rules(yard.model.site.species, kStep, false), kStep);
  const KnownWalls::Ask ask = [&] { return WallsBetween(yard.model, yard.patches, kStep, kLimit); };
  const Unfolded places(yard.patches);
  OverWalls over(yard.patches, places, rules, ask);
  over.ask();
  const auto& here = yard.patches[0]->pieces;
  for (std::size_t i = 0; i < here.size(); ++i) {
    const double r = 3.85 - here[i].cell.hi.y;
    const double told = over.of_pieces(0, static_cast<int>(i), north, 0);
    const double s = rules.ability.stretch;
    EXPECT_LE(told, effort(r + 0.3, 1.5, s) + 1e-6) << r;
    EXPECT_GE(told, effort(std::max(0.0, r - 3.0 * kStep), 1.5 - 3.0 * kStep, s) - 1e-6) << r;
  }
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

// The fast search against a witness that tries all pairs of the very same pieces, one by one.
#include <gtest/gtest.h>

#include <limits>

#include "engine/leap/places/places.h"
#include "engine/leap/search/minimax.h"
#include "tests/leap/random_small_yard.h"

namespace hummock::leap {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

double least_of_pair(const LinkRules& rules, const geom::RayScene& scene, const SurfacePiece& p,
                     const SurfacePiece& q, double below) {
  const double bound = link_bound(rules, p.cell, !p.cling, q.cell, q.hook);
  if (!(bound < below) || within_step_over(rules, p, q)) return bound;
  const Arc least = least_arc(rules, p, q);
  const Ends ends = ends_of(rules, q);
  double share = 0.5;
  if (arc_free(scene, least, rules.chord_error, ends, &share)) return bound;
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
      double at = 0.5;
      if (!arc_free(scene, rung(rules, least, side, k), rules.chord_error, ends, &at)) {
        blocked_at = at;
        continue;
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

std::vector<PatchPtr> all_patches(const Model& model, const PlaceRules& places,
                                  const LinkRules& links) {
  std::vector<PatchPtr> raised;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const auto own = part_places(model, static_cast<int>(k), places);
    raised.insert(raised.end(), own.begin(), own.end());
  }
  const auto ways = exits(model, places);
  raised.insert(raised.end(), ways.begin(), ways.end());
  std::vector<PatchPtr> patches = ground_places(model, places, {&raised, &links}).patches;
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
    const std::vector<PatchPtr> patches = all_patches(model, places, links);
    Quest quest;
    quest.starts = {{0, 0.0}};
    for (std::size_t k = 1; k < patches.size(); ++k) quest.targets.push_back(static_cast<int>(k));
    const SearchResult fast = search(patches, quest, *model.body_scene, links);
    const std::vector<double> slow =
        required_leaps_over_all_pairs(patches, links, *model.body_scene);
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

}  // namespace
}  // namespace hummock::leap

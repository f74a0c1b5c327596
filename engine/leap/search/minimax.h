// The search: the least effort by which each patch can be gained from the living ground.
//
// A route is a chain of leaps and walks; what it demands of the animal is its greatest effort. The
// least such demand of every patch is the bottleneck (minimax) path problem (Pollack 1960; Hu
// 1961), solved by Dijkstra's scheme with max in place of sum. The graph's edges are leaps between
// patches, each the least effort over all pairs of spots whose flight is free: far too many to
// list. They are found by branch and bound over the trees of both patches at once (dual trees,
// Gray & Moore 2000), in one queue with the search itself. The queue's entries are
//     a node of a gained patch × a node of the patches not yet gained, key max(demand, bound);
// a pair of spots, key the bound of its cells; a rung of a blocked pair, key its bound.
// The smallest is taken: nodes are split, spots tested, blocked flights climb their ladder. Keys
// never fall, so the first flight found free into a patch is its cheapest: best-first search with
// an admissible bound is exact (Hart, Nilsson & Raphael 1968). Ties go to the newest entry, which
// turns the search depth-first where many efforts are equal, as along a fence.
//
// Bounds. `demand` is counted from cells and rungs (links.h): never above the true demand, up to
// openings narrower than a rung. `demand_above` is the greatest effort of the flights found, each
// free between the points it joins: the true demand is not above it. The truth lies between.
//
// Walls. After `tries_before_walls` blocked flights into one patch, and before a step from one part
// of the ground to another that something stands across, it is asked how high everything stands
// between the patches (walls_between.h); from then on no flight or step from the one to the other
// is tried below the effort that takes it over (over_walls.h).
//
// Reach. A pair whose edge lies within reach is tried with a limb first, at the demand of the patch
// itself; only what no limb gets to is left to leaps.
//
// Rooms. From one way of a house's room to the others it goes within, at the effort each asks from
// the floor or from the other's sill (room_ways.h), without any flight; a way out above the roof is
// gained so alone.
//
// A pocket whose every flight stays blocked could cost all pairs of its samples. After
// `most_tries` blocked flights into one patch that is not an exit, it is taken as gained at the
// key reached, which can only lower the demands of others; such patches are counted in `assumed`.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/base/progress.h"
#include "engine/leap/places/patch.h"
#include "engine/leap/search/links.h"
#include "engine/leap/search/walls_between.h"
#include "geometry/rays/ray_scene.h"

namespace hummock::leap {

class KnownFlights;  // known_flights.h

enum class LinkKind { start, step_over_gap, reach, flight, within, assumed };

struct Link {
  LinkKind kind = LinkKind::start;
  int from_patch = -1;
  geom::Vec3 from, to;        // m; `to` is the edge itself where one is hooked
  double effort = 0.0;        // m, of the flight found, with the cost of its take-off
  double effort_below = 0.0;  // m, no flight between the cells needs less
  double apex = 0.0;          // of the flight (arcs.h)
  geom::Vec3 aim;             // where the flight ends: below `to` by the grip at an edge
};

struct Gained {
  double required_leap = 1e300;  // m; kNotGained when it was not within the limit
  double required_leap_above = 1e300;
  Link by;
  bool is() const { return required_leap < 1e299; }
};

struct Start {
  int patch = -1;
  double required_leap = 0.0;
};

struct Quest {
  std::vector<Start> starts;
  std::vector<int> targets;         // patches that may be gained; starts are skipped
  bool onward = true;               // go on from what is gained
  bool stop_at_first_exit = false;  // when one exit is all that is asked
  // m; what needs more is not asked, and not searched: up to here the answer is the same as
  // without.
  double key_limit = 1e300;
  const KnownFlights* known = nullptr;  // of the scene and the rules, tested before
  std::int64_t most_tries = 60000;
  // True: a pocket is left, not taken as gained, so that what is gained is flown to from end to end
  // (and what is not may be gained all the same).
  bool leave_pockets = false;
  std::int64_t most_flights = 4000000;
  // Blocked flights into one exit, after which it is left at the key reached and the answer is a
  // bound from below (`complete` false).
  std::int64_t most_tries_at_exit = 400000;
  bool look_ahead = true;  // false: the same answer, later (look_ahead.h)
  // What stands between the patches, asked once where it bears; nothing = nothing is known of it.
  KnownWalls::Ask walls;
  std::int64_t tries_before_walls =
      1000;  // blocked flights into one patch; numeric, a limit of work
};

struct SearchResult {
  std::vector<Gained> patches;  // one for each patch
  bool complete = true;         // false: stopped at `most_flights`; nothing below `key` was missed
  double key = 0.0;             // m, efforts up to here are settled; the limit when all are
  std::int64_t flights = 0;     // tested
  int assumed = 0;
  std::int64_t left_out = 0;  // blocks of ground that came too late (look_ahead.h)
  geom::Box3 touched;  // holds every flight tested: what lies outside it cannot change the answer
};

SearchResult search(const std::vector<PatchPtr>& patches, const Quest& quest,
                    const geom::RayScene& scene, const LinkRules& rules,
                    const Progress& progress = {});

}  // namespace hummock::leap

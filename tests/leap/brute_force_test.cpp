// The fast search against witnesses that try everything, on random small yards.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "engine/leap/places/places.h"
#include "engine/leap/search/leap_solver.h"
#include "engine/leap/search/minimax.h"
#include "tests/support/yard.h"

namespace hummock::leap {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

// A yard of about two metres with boxes that may touch, lean on the fence or stand under its
// overhang.
Site random_yard(unsigned seed) {
  std::mt19937 random(seed);
  const auto between = [&](double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random);
  };
  const double width = between(1.6, 2.2);
  const double depth = between(1.3, 1.8);
  Site site = test::yard(width, depth, between(0.45, 0.8), SheetKind::solid);
  site.species = test::test_animal(between(0.3, 0.5), between(0.5, 1.0));
  site.species.body.value[2] = 0.1;
  site.ground.margin = 0.5;
  site.boundary.sections[0].panel = 5.0;
  if (seed % 2 == 0) {
    site.boundary.sections[0].overhang = Overhang{between(0.1, 0.3), between(-0.3, 0.9)};
  }
  if (seed % 3 == 0) site.species.grip.value = between(0.0, 0.06);
  const int boxes = static_cast<int>(seed % 4);
  for (int k = 0; k < boxes; ++k) {
    Object& box = test::add_box(site, "box " + std::to_string(k),
                                {between(0.35, width - 0.35), between(0.35, depth - 0.35)},
                                {between(0.2, 0.5), between(0.2, 0.5), between(0.15, 0.6)});
    box.turn = between(0.0, 1.5);
    // A shelf to jump round.
    if (k == 2) box.z = between(0.1, 0.5), box.size.z = 0.05;
  }
  return site;
}

// --- first witness: all pairs of the very same pieces, one by one

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

// --- second witness: its own points on the boxes and the ground, its own flights, every angle

struct Point {
  geom::Vec3 at;
  bool edge = false;
};
using Points = std::vector<Point>;

void add_line(Points& points, geom::Vec3 a, geom::Vec3 b, double spacing, bool edge) {
  const int n = std::max(1, static_cast<int>(std::ceil(distance(a, b) / spacing)));
  for (int k = 0; k <= n; ++k) points.push_back({lerp(a, b, static_cast<double>(k) / n), edge});
}

bool buried(const Model& model, geom::Vec3 p, double body) {
  const geom::Hit hit = model.body_scene->first_hit({p + geom::Vec3{0, 0, 1e-3}, {0, 0, 1}});
  return hit && (hit.normal.z > 0.0 || hit.t < body);
}

std::vector<Points> witness_places(const Model& model, double spacing) {
  std::vector<Points> places(1);
  const double body = model.site.species.body.value[2];
  const geom::Box2 box = geom::bounds(model.outline);
  for (double y = box.lo.y + 1e-3; y < box.hi.y; y += spacing) {
    for (double x = box.lo.x + 1e-3; x < box.hi.x; x += spacing) {
      if (!buried(model, {x, y, 0.0}, body)) places[0].push_back({{x, y, 0.0}, false});
    }
  }
  for (const Object& o : model.site.objects) {
    Points top;
    const double z = o.z + o.size.z;
    const auto corner = [&](double u, double v) {
      const geom::Vec2 d{u * o.size.x, v * o.size.y};
      return geom::Vec3{o.at.x + std::cos(o.turn) * d.x - std::sin(o.turn) * d.y,
                        o.at.y + std::sin(o.turn) * d.x + std::cos(o.turn) * d.y, z};
    };
    for (const double v : {-0.5, -0.25, 0.0, 0.25, 0.5}) {
      add_line(top, corner(-0.5, v), corner(0.5, v), spacing, v == 0.5 || v == -0.5);
    }
    add_line(top, corner(-0.5, -0.5), corner(-0.5, 0.5), spacing, true);
    add_line(top, corner(0.5, -0.5), corner(0.5, 0.5), spacing, true);
    std::erase_if(top, [&](const Point& p) {
      return buried(model, p.at, body) || !geom::contains(model.outline, xy(p.at));
    });
    if (!top.empty()) places.push_back(top);
  }
  return places;
}

// Every point of the barrier's top and of the overhang, its upper side and foot too, where the
// engine knows only the edges. Under an overhang the foot is out only when met from above, so
// points of the sheet stand 10 mm over it, farther than a flight's untested end.
Points witness_exits(const Model& model, double spacing) {
  Points exits;
  if (model.overhangs.empty()) {
    for (const Panel& p : model.panels) {
      add_line(exits, at_height(p.a, p.top_a), at_height(p.b, p.top_b), spacing, true);
    }
  }
  for (const OverhangPanel& o : model.overhangs) {
    const geom::Vec3 n = unit(cross(o.base_b - o.base_a, o.tip_a - o.base_a)) * 0.01;
    for (const double t : {0.05, 0.35, 0.65, 0.95}) {
      add_line(exits, lerp(o.base_a, o.tip_a, t) + n, lerp(o.base_b, o.tip_b, t) + n, spacing,
               false);
    }
    add_line(exits, o.tip_a, o.tip_b, spacing, true);
  }
  return exits;
}

// x: the distance of the reading (stretched, or for drops plain) in which tan_launch is told.
bool flies(const Model& model, geom::Vec3 from, geom::Vec3 aim, double reach, double x,
           double tan_launch) {
  const double z = aim.z - from.z;
  constexpr int kPieces = 40;
  geom::Vec3 last = from + geom::Vec3{0, 0, 2e-3};
  for (int k = 1; k <= kPieces; ++k) {
    const double u = static_cast<double>(k) / kPieces;
    geom::Vec3 next = lerp(from, aim, u);
    next.z = from.z + x * tan_launch * u - (x * tan_launch - z) * u * u;
    const double left = distance(next, aim);
    if (left < reach + 3e-3) {
      if (left + 1e-9 >= distance(last, aim)) return true;
    }
    // Chords overlap: the least over very many flights would find any gap at their joints.
    const double size = distance(last, next);
    const double far = k == kPieces ? size - reach - 3e-3 : size + 1e-4;
    if (far > 0.0 && model.body_scene->occluded({last, unit(next - last), 0.0, far})) return false;
    if (left < reach + 3e-3) return true;
    last = next;
  }
  return true;
}

double witness_leap(const Model& model, const Point& p, const Point& q, double below) {
  const Species& species = model.site.species;
  const double s = 2.0 * species.leap_height.value / species.leap_distance.value;
  geom::Vec3 aim = q.at;
  const double reach = q.edge ? species.grip.value : 0.0;
  aim.z -= reach;
  const double r = std::max(1e-6, distance(xy(p.at), xy(aim)));
  const double z = aim.z - p.at.z;
  const auto least = [&](double x) { return 0.5 * (z + std::sqrt(z * z + x * x)); };
  // Drops of an animal that leaps shorter than twice its height: a plain throw at the speed of its
  // level gap is tried too, each metre of it worth s metres of leap height (effort.h).
  struct Reading {
    double x, worth;
  };
  std::vector<Reading> readings{{s * r, 1.0}};
  if (z < 0.0 && s > 1.0) readings.push_back({r, s});
  double e = kInfinite;
  for (const Reading& reading : readings) e = std::min(e, reading.worth * least(reading.x));
  for (double E = std::max(e * (1.0 + 1e-12), 1e-6); E < below; E *= 1.02) {
    for (const Reading& reading : readings) {
      const double x = reading.x;
      const double own = E / reading.worth;
      const double square = 1.0 - z / own - x * x / (4.0 * own * own);
      if (square < -1e-9) continue;
      const double root = std::sqrt(std::max(0.0, square));
      for (const double sign : {1.0, -1.0}) {
        if (flies(model, p.at, aim, reach, x, 2.0 * own / x * (1.0 + sign * root))) return E;
      }
    }
  }
  return kInfinite;
}

double witness_escape(const Model& model, double spacing, double limit) {
  std::vector<Points> places = witness_places(model, spacing);
  places.push_back(witness_exits(model, spacing));
  const std::size_t out = places.size() - 1;
  std::vector<double> required_leap(places.size(), limit);
  std::vector<char> done(places.size(), 0);
  required_leap[0] = 0.0;
  for (;;) {
    std::size_t next = places.size();
    for (std::size_t k = 0; k < places.size(); ++k) {
      if (done[k] == 0 && required_leap[k] < limit &&
          (next == places.size() || required_leap[k] < required_leap[next])) {
        next = k;
      }
    }
    if (next == places.size() || next == out) return required_leap[out];
    done[next] = 1;
    for (std::size_t t = 1; t < places.size(); ++t) {
      if (done[t] != 0) continue;
      for (const Point& p : places[next]) {
        for (const Point& q : places[t]) {
          if (required_leap[t] <= required_leap[next]) break;
          const double e = witness_leap(model, p, q, required_leap[t]);
          required_leap[t] = std::min(required_leap[t], std::max(required_leap[next], e));
        }
      }
    }
  }
}

TEST(BruteForce, TheLeapIsNeverAboveTheTruthAndWithinItsBound) {
  int escapes = 0;
  double widest = 0.0;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Model model = test::built(random_yard(seed));
    Settings settings;
    settings.resolution = 0.05;
    const Result result = analyse(model, settings);
    const double limit = 2.0 * model.site.species.leap_height.value;
    const double spacing = 0.06;
    const double witness = witness_escape(model, spacing, limit);
    // A flight the witness found is a way out: the demand must not be above it. The witness's own
    // flights are good to a millimetre (40 chords sag by under 0.3 mm; 3 mm at the end untested).
    EXPECT_LE(result.escape_leap_m.value_or(result.bounded_below_m), witness + 1e-3);
    if (!result.escape_leap_m) continue;
    ++escapes;
    widest = std::max(widest, result.resolution_bound_m);
    // The route of the answer is itself a way out; the witness, with points of its own at
    // `spacing` and efforts in steps of 2 %, may miss it by that much.
    const double s =
        2.0 * model.site.species.leap_height.value / model.site.species.leap_distance.value;
    const double own = 0.03 * witness + s * spacing + 0.01;
    EXPECT_GE(*result.escape_leap_m + result.resolution_bound_m, witness - own);
  }
  EXPECT_GE(escapes, 120);
  RecordProperty("widest_bound_mm", static_cast<int>(widest * 1000));
  EXPECT_LT(widest, 0.1);
}

}  // namespace
}  // namespace hummock::leap

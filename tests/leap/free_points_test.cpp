// The answer against a witness with points of its own on the boxes and the ground, its own flights,
// every angle; on random small yards.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/leap/leap.h"
#include "tests/leap/random_small_yard.h"

namespace hummock::leap {
namespace {

constexpr double kNoEnd = std::numeric_limits<double>::infinity();

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
  double e = kNoEnd;
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
  return kNoEnd;
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
  // Widest where a flight past a corner (links.h, Beside) is the first one found at the key.
  EXPECT_LT(widest, 0.15);
}

}  // namespace
}  // namespace hummock::leap

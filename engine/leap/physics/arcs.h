// The flights between two points, in order of effort, and whether one is free.
//
// The family. All parabolas from p to q in the vertical plane through both are one family in one
// number. With x = s·r the stretched distance, z the rise, t the launch slope and w = x·t, the
// point at share u of the way is
//     p + u·(q − p) horizontally,   w·u(1 − u) + z·u²  above p,                                (1)
// and equation (1) of effort.h solved for E gives
//     E(w) = (x² + w²) / (4 (w − z)),   w > max(z, 0−).                                        (2)
// E is least at w₀ = z + √(z² + x²) = 2e, where E = e; it rises on both sides. Larger w is steeper
// and higher (the middle rises by Δw/4), smaller is flatter. For effort E the two launch slopes are
//     t = (2E/x)·(1 ± √(1 − z/E − x²/(4E²))).                                                  (3)
// Nothing is singular at x = 0: straight up, and with w > w₀ up past q and down on it.
//
// Drops. Where z < 0 and s > 1 a second reading of the animal's figures competes (effort.h, 3'):
// the same curves thrown plainly, x = r, at s times the effort of (2). A flight's effort is the
// lesser. The flight of least effort is then that of the plain reading, w₁ = z + √(z² + r²); the
// lesser of the two is not monotone above it, so bounds use what is: the least effort of any flight
// at least as steep (or as flat) as w, `effort_beyond`.
//
// Chains. A flight is tested as n straight chords. A chord of the parabola (1) lies below it by at
// most (w − z)/(4n²); n is chosen so that this is at most `chord_error` (up to kMostChords). So a
// chain may touch an obstacle that the flight clears by less than `chord_error`, and never the
// other way by more than that.
//
// A body is a point here: a flight found free may still be too tight for the animal, but none that
// a body can fly is missed.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "geometry/rays/ray_scene.h"
#include "geometry/vec.h"

namespace hummock::leap {

inline constexpr int kMostChords = 16;

struct Arc {
  geom::Vec3 from, to;  // m
  double apex = 0.0;    // w of (1), m
};

double arc_effort(double x, double z, double w);  // (2); infinite for w <= z (no such flight)
double least_apex(double x, double z);            // w₀
// The bulges of the two flights with effort E >= e(x, z): steeper first. (3) as w = x·t.
struct Apexes {
  double steep = 0.0, flat = 0.0;
};
Apexes apexes_at(double x, double z, double E);

// The same with both readings, in unstretched distance r: of the flight of least effort, of one
// flight, and of the cheapest flight at least as steep, or as flat, as w.
double least_flight(double r, double z, double s);             // its w, m
double flight_effort(double r, double z, double w, double s);  // m
double effort_beyond(double r, double z, double w, double s, bool steeper);

geom::Vec3 point_on(const Arc& arc, double share);
int chords_needed(double w, double z, double chord_error);
// The chain's corners, from first to last.
std::vector<geom::Vec3> chain(const Arc& arc, double chord_error);

// What ends of a flight may touch.
struct Ends {
  double clear_from = 2e-3;  // m of the way left untested at the take-off
  double clear_to = 2e-3;    // m at the landing: more where an edge is hooked from below
};

// The first chord of the flight that meets something solid, from 0 on; -1: none does.
int blocked_chord(const geom::RayScene& scene, const Arc& arc, double chord_error,
                  const Ends& ends);
// Of up to 16 flights, those of which that one chord (one beyond the last: the last) is blocked:
// bit i of flight i.
std::uint32_t chords_blocked(const geom::RayScene& scene, std::span<const Arc> arcs,
                             double chord_error, const Ends& ends, int chord);
double share_at(const Arc& arc, double chord_error, int chord);  // of the way, its middle
// Is the flight free of everything solid? With `blocked_at`: the share of the way of the first
// chord that is not.
bool arc_free(const geom::RayScene& scene, const Arc& arc, double chord_error, const Ends& ends,
              double* blocked_at = nullptr);

}  // namespace hummock::leap

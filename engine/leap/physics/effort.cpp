#include "engine/leap/physics/effort.h"

#include <algorithm>
#include <cmath>

#include "engine/base/input_error.h"
#include "engine/species/body.h"

namespace hummock::leap {

using geom::Box3;

namespace {

void require_positive(const Sourced<double>& figure, const char* key, const char* range) {
  if (!(figure.value > 0.0) || !std::isfinite(figure.value)) {
    Where where = figure.where;
    if (where.key.empty()) where.key = key;
    throw InputError(where, std::to_string(figure.value), range);
  }
}

void refuse_centre_of_mass(const Sourced<double>& figure, const char* key) {
  if (figure.measures != "centre of mass") return;
  Where where = figure.where;
  if (where.key.empty()) where.key = key;
  throw InputError(where, "a rise of the centre of mass",
                   "the height of a ledge, bar or wall gained (measures)");
}

// (3'): drops of an animal that leaps shorter than twice its height.
double stretched_rise(double z, double s) {
  return z < 0.0 && s > 1.0 ? s * z : z;
}

}  // namespace

Ability ability_of(const Species& species) {
  require_positive(species.leap_height, "leap_height", "a number above 0 (m)");
  require_positive(species.leap_distance, "leap_distance", "a number above 0 (m)");
  refuse_centre_of_mass(species.leap_height, "leap_height");
  if (!(species.grip.value >= 0.0)) {
    throw InputError(species.grip.where, std::to_string(species.grip.value), "0 or more (m)");
  }
  if (!(species.cling_leap.value >= 0.0 && species.cling_leap.value <= 1.0)) {
    throw InputError(species.cling_leap.where, std::to_string(species.cling_leap.value),
                     "a share from 0 to 1");
  }
  Ability a;
  a.height = species.leap_height.value;
  a.stretch = 2.0 * species.leap_height.value / species.leap_distance.value;
  a.grip = species.grip.value;
  a.cling = species.cling_leap.value;
  const Body body = body_of(species);
  a.reach = body.reach;
  a.water = body.swims ? body.leap_from_water : 0.0;
  return a;
}

double effort(double r, double z, double s) {
  const double x = s * r;
  const double up = stretched_rise(z, s);
  const double root = std::sqrt(up * up + x * x);
  if (up >= 0.0) return 0.5 * (up + root);
  // The same with the difference of two near numbers multiplied out.
  return root - up > 0.0 ? 0.5 * x * x / (root - up) : 0.0;
}

double envelope_height(double r, double E, double s) {
  const double x = s * r;
  const double z = E - x * x / (4.0 * E);
  return z < 0.0 && s > 1.0 ? z / s : z;
}

double envelope_distance(double z, double E, double s) {
  if (z > E) return -1.0;
  return 2.0 / s * std::sqrt(E * (E - stretched_rise(z, s)));
}

double plan_distance(const Box3& a, const Box3& b) {
  const double dx = std::max({0.0, b.lo.x - a.hi.x, a.lo.x - b.hi.x});
  const double dy = std::max({0.0, b.lo.y - a.hi.y, a.lo.y - b.hi.y});
  return std::sqrt(dx * dx + dy * dy);
}

double effort_between(const Box3& from, const Box3& to, double s) {
  return effort(plan_distance(from, to), to.lo.z - from.hi.z, s);
}

namespace {

// Shortest distance from (r, z) above the parabola (q, top − k q²) to its piece from lo to hi: zero
// of the falling distance's slope, found by bisection, where it changes sign once.
double distance_to_piece(double r, double z, double top, double k, double lo, double hi) {
  const auto slope = [&](double q) { return q - r - 2.0 * k * q * (top - k * q * q - z); };
  for (int step = 0; step < 60 && hi > lo; ++step) {
    const double mid = 0.5 * (lo + hi);
    (slope(mid) > 0.0 ? hi : lo) = mid;
  }
  const double q = 0.5 * (lo + hi);
  return std::hypot(r - q, z - (top - k * q * q));
}

}  // namespace

double clearance_of_envelope(double r, double z, double E, double s) {
  if (z <= envelope_height(r, E, s)) return 0.0;
  const double k = s * s / (4.0 * E);
  if (s <= 1.0) return distance_to_piece(r, z, E, k, 0.0, r);
  const double level = 2.0 * E / s;  // where the plain throw takes over
  const double upper = distance_to_piece(r, z, E, k, 0.0, std::min(r, level));
  if (r <= level) return upper;
  return std::min(upper, distance_to_piece(r, z, E / s, k / s, level, r));
}

}  // namespace hummock::leap

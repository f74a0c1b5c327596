#include "engine/leap/physics/effort.h"

#include <algorithm>
#include <cmath>

#include "engine/base/input_error.h"

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

}  // namespace

Ability ability_of(const Species& species) {
  require_positive(species.leap_height, "leap_height", "a number above 0 (m)");
  require_positive(species.leap_distance, "leap_distance", "a number above 0 (m)");
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
  a.body = species.body.value[2];
  return a;
}

double effort(double r, double z, double s) {
  const double x = s * r;
  const double root = std::sqrt(z * z + x * x);
  if (z >= 0.0) return 0.5 * (z + root);
  // The same with the difference of two near numbers multiplied out.
  return root - z > 0.0 ? 0.5 * x * x / (root - z) : 0.0;
}

double envelope_height(double r, double E, double s) {
  const double x = s * r;
  return E - x * x / (4.0 * E);
}

double envelope_distance(double z, double E, double s) {
  if (z > E) return -1.0;
  return 2.0 / s * std::sqrt(E * (E - z));
}

double plan_distance(const Box3& a, const Box3& b) {
  const double dx = std::max({0.0, b.lo.x - a.hi.x, a.lo.x - b.hi.x});
  const double dy = std::max({0.0, b.lo.y - a.hi.y, a.lo.y - b.hi.y});
  return std::sqrt(dx * dx + dy * dy);
}

double effort_between(const Box3& from, const Box3& to, double s) {
  return effort(plan_distance(from, to), to.lo.z - from.hi.z, s);
}

double clearance_of_envelope(double r, double z, double E, double s) {
  if (z <= envelope_height(r, E, s)) return 0.0;
  // Nearest point (q, E − k q²): zero of the falling distance's slope g(q), found by bisection
  // between 0 and r, where it changes sign once.
  const double k = s * s / (4.0 * E);
  const auto slope = [&](double q) { return q - r - 2.0 * k * q * (E - k * q * q - z); };
  double lo = 0.0;
  double hi = r;
  for (int step = 0; step < 60 && hi > lo; ++step) {
    const double mid = 0.5 * (lo + hi);
    (slope(mid) > 0.0 ? hi : lo) = mid;
  }
  const double q = 0.5 * (lo + hi);
  return std::hypot(r - q, z - (E - k * q * q));
}

}  // namespace hummock::leap

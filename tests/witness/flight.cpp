#include "tests/witness/flight.h"

#include <limits>

namespace hummock::witness {
namespace {

constexpr double kSag = 0.004;  // m, of a chord under its parabola
constexpr double kTube = 0.9;   // of the ball's radius
constexpr double kEnds = 1.5;   // radii, before an edge

double family_effort(double x, double z, double w) {
  return w > z + 1e-9 ? (x * x + w * w) / (4.0 * (w - z)) : std::numeric_limits<double>::infinity();
}

// The second reading is of animals that leap shorter than twice their height alone: for others a
// steep plain throw would rise higher than the ledge their figure gives.
bool has_two_readings(const Animal& animal, double z) {
  return animal.easier_drop && z < 0.0 && animal.stretch() > 1.0;
}

bool plain_is_easier(const Animal& animal, double r, double z) {
  const double s = animal.stretch();
  return has_two_readings(animal, z) && s * thrown_effort(r, z) < thrown_effort(s * r, z);
}

Vec3 on_flight(Vec3 a, Vec3 b, double w, double u) {
  Vec3 p = lerp(a, b, u);
  p.z = a.z + w * u * (1.0 - u) + (b.z - a.z) * u * u;
  return p;
}

// Four lines round the chord from p to q.
bool tube_free(const Rays& rays, Vec3 p, Vec3 q, double off) {
  const Vec3 along = unit(q - p);
  Vec3 side = cross(along, Vec3{0, 0, 1});
  side = length(side) > 1e-6 ? unit(side) : Vec3{1, 0, 0};
  const Vec3 over = cross(side, along);
  for (const Vec3& d : {side, -side, over, -over})
    if (!rays.free(p + d * off, q + d * off)) return false;
  return true;
}

}  // namespace

double thrown_effort(double r, double z) {
  const double root = std::sqrt(z * z + r * r);
  return z >= 0.0 ? 0.5 * (z + root) : 0.5 * r * r / std::max(root - z, 1e-300);
}

double least_effort(const Animal& animal, double r, double z) {
  const double s = animal.stretch();
  return plain_is_easier(animal, r, z) ? s * thrown_effort(r, z) : thrown_effort(s * r, z);
}

double least_bulge(const Animal& animal, double r, double z) {
  const double x = plain_is_easier(animal, r, z) ? r : animal.stretch() * r;
  return 2.0 * thrown_effort(x, z);
}

double effort_of_bulge(const Animal& animal, double r, double z, double w) {
  const double s = animal.stretch();
  const double stretched = family_effort(s * r, z, w);
  if (!has_two_readings(animal, z)) return stretched;
  return std::min(stretched, s * family_effort(r, z, w));
}

bool flies(const Rays& rays, const Animal& animal, Vec3 a, Vec3 b, double w, bool edge) {
  const double z = b.z - a.z;
  const int n = std::clamp(static_cast<int>(std::ceil(std::sqrt((w - z) / (4.0 * kSag)))), 2, 24);
  Vec3 last = a;
  for (int k = 1; k <= n; ++k) {
    const Vec3 next = on_flight(a, b, w, static_cast<double>(k) / n);
    if (!rays.free(last, next)) return false;
    last = next;
  }
  const int fine = 2 * n;
  last = a;
  for (int k = 1; k <= fine; ++k) {
    const Vec3 next = on_flight(a, b, w, static_cast<double>(k) / fine);
    const bool hooked = edge && distance(next, b) < kEnds * animal.radius();
    if (!hooked && !tube_free(rays, last, next, kTube * animal.radius())) return false;
    last = next;
  }
  return true;
}

bool passes(const Rays& rays, const Animal& animal, Vec3 a, Vec3 b) {
  return rays.free(a, b) &&
         (distance(a, b) < 1e-9 || tube_free(rays, a, b, kTube * animal.radius()));
}

}  // namespace hummock::witness

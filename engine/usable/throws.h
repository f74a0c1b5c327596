// How a leap is thrown and flown, of those from part to part of the ground (hops.h).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/model/model.h"

namespace hummock::usable {

// m above its feet, the flight of a point that stands; numeric, above what rays are off by
inline constexpr double kOffTheGround = 0.03;

inline double effort(double r, double z, double stretch) {
  const double x = stretch * r;
  return 0.5 * (z + std::sqrt(z * z + x * x));
}

// How a leap is thrown: its effort, and the tangent of its launch, stretched (engine/leap/physics).
struct Throw {
  double effort = 0.0, steepness = 0.0;
};

// That of least effort: launched half way between the line to its end and straight up.
inline Throw least_throw(double r, double z, double stretch) {
  const double tilt = 0.25 * geom::kPi + 0.5 * std::atan2(z, stretch * r);
  return {effort(r, z, stretch), std::tan(tilt)};
}

// The steeper of the two that an effort above the least allows: the parabola through both ends,
// x²(1 + t²)/4e − xt + z = 0, solved for t.
inline Throw steep_throw(double r, double z, double stretch, double e) {
  const double x = stretch * r;
  return {e, (2.0 * e + std::sqrt(std::max(0.0, 4.0 * e * (e - z) - x * x))) / x};
}

// From p to q, cut into straight pieces.
inline std::array<Vec3, 13> flight(Vec3 p, Vec3 q, double stretch, const Throw& thrown) {
  std::array<Vec3, 13> out;
  const Vec2 along = geom::xy(q) - geom::xy(p);
  const double x = stretch * length(along), z = q.z - p.z;
  const double e = thrown.effort, t = thrown.steepness;
  for (std::size_t k = 0; k < out.size(); ++k) {
    const double u = static_cast<double>(k) / (static_cast<double>(out.size()) - 1.0);
    const double d = u * x;
    const double up = x > 0.0 ? d * t - d * d * (1.0 + t * t) / (4.0 * e) : u * z;
    out[k] = at_height(geom::xy(p) + along * u, p.z + up + kOffTheGround);
  }
  return out;
}

}  // namespace hummock::usable

#include "engine/shade/beam/sun_ray.h"

#include <algorithm>

namespace hummock::shade {
namespace {

using geom::kDegree;
using geom::kPi;
constexpr double kSunRadius = 959.63 / 3600.0 * kDegree;  // at 1 au (IAU, Auwers)

}  // namespace

double horizon_at(const std::vector<HorizonPoint>& profile, double azimuth) {
  if (profile.empty()) return -kPi / 2.0;
  const auto after =
      std::upper_bound(profile.begin(), profile.end(), azimuth,
                       [](double a, const HorizonPoint& p) { return a < p.azimuth; });
  HorizonPoint hi = after == profile.end() ? profile.front() : *after;
  HorizonPoint lo = after == profile.begin() ? profile.back() : *(after - 1);
  if (after == profile.end()) hi.azimuth += 2.0 * kPi;
  if (after == profile.begin()) lo.azimuth -= 2.0 * kPi;
  const double span = hi.azimuth - lo.azimuth;
  const double t = span > 0.0 ? (azimuth - lo.azimuth) / span : 0.0;
  return lo.elevation + t * (hi.elevation - lo.elevation);
}

SunRay sun_ray(const Place& place, const sun::Position& at) {
  return sun_ray(at.towards, at.elevation > horizon_at(place.horizon, at.azimuth));
}

std::vector<SunRay> disc_rays(const Place& place, const sun::Position& at) {
  const Vec3 side = unit(cross(Vec3{0.0, 0.0, 1.0}, at.towards));
  const Vec3 up = cross(at.towards, side);
  const double radius = kSunRadius / at.distance_au;
  std::vector<SunRay> rays;
  for (int k = 0; k < kDiscRays; ++k) {
    // Sunflower spiral: equal areas.
    const double r = radius * std::sqrt((k + 0.5) / kDiscRays);
    const double turn = k * kPi * (3.0 - std::sqrt(5.0));
    const double across = r * std::cos(turn);
    const double above = r * std::sin(turn);
    const double azimuth =
        std::remainder(at.azimuth - across / std::cos(at.elevation) - kPi, 2.0 * kPi) + kPi;
    const bool seen = at.elevation + above > horizon_at(place.horizon, azimuth);
    rays.push_back(sun_ray(unit(at.towards + side * across + up * above), seen));
  }
  return rays;
}

}  // namespace hummock::shade

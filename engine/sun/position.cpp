// Where the sun is: ERFA down to the horizon of the place.
#include <erfa.h>
#include <erfam.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/sun/direction.h"
#include "engine/sun/sun.h"

namespace hummock::sun {
namespace {

using geom::kDegree;
using geom::kPi;

constexpr double kEpochJd = 2451544.5;                        // 2000-01-01 00:00
constexpr double kLightDayPerAu = 499.004782 / 86400.0;       // light time, days (IAU 1976 value)
constexpr double kLowestRefracted = -0.8333 * geom::kDegree;  // upper limb on the horizon
constexpr double kNodeSpacing = 0.25;                         // days, of a Track

// The sun seen from the Earth's centre, au, in the true equator and equinox of date.
Vec3 apparent_sun(double jd1, double jd2) {
  double helio[2][3];
  double bary[2][3];
  eraEpv00(jd1, jd2, helio, bary);  // +1 outside 1900–2100: a warning only
  const double r =
      std::sqrt(helio[0][0] * helio[0][0] + helio[0][1] * helio[0][1] + helio[0][2] * helio[0][2]);
  const double light = r * kLightDayPerAu;
  std::array<double, 3> p{};
  std::array<double, 3> v{};
  double v2 = 0.0;
  for (std::size_t k = 0; k < 3; ++k) {
    const double sun_velocity = bary[1][k] - helio[1][k];
    p[k] = -helio[0][k] - sun_velocity * light;  // the sun where its light left it
    v[k] = bary[1][k] * kLightDayPerAu;          // in units of the speed of light
    v2 += v[k] * v[k];
  }
  const double distance = std::sqrt(p[0] * p[0] + p[1] * p[1] + p[2] * p[2]);
  for (double& c : p) c /= distance;
  std::array<double, 3> seen{};
  eraAb(p.data(), v.data(), distance, std::sqrt(1.0 - v2), seen.data());
  double to_date[3][3];
  eraPnm00b(jd1, jd2, to_date);
  std::array<double, 3> of_date{};
  eraRxp(to_date, seen.data(), of_date.data());
  return Vec3{of_date[0], of_date[1], of_date[2]} * distance;
}

// Turned into axes fixed to the Earth (x to Greenwich, z to the pole).
Vec3 to_earth(Vec3 sun, double sidereal) {
  const double c = std::cos(sidereal);
  const double s = std::sin(sidereal);
  return {c * sun.x + s * sun.y, -s * sun.x + c * sun.y, sun.z};
}

// East, north, up at the place.
Vec3 to_local(Vec3 p, double latitude, double longitude) {
  const double cl = std::cos(longitude);
  const double sl = std::sin(longitude);
  const double cp = std::cos(latitude);
  const double sp = std::sin(latitude);
  const double outwards = cl * p.x + sl * p.y;
  return {-sl * p.x + cl * p.y, -sp * outwards + cp * p.z, cp * outwards + sp * p.z};
}

Vec3 observer(const Place& place) {
  std::array<double, 3> xyz{};
  eraGd2gc(1, place.longitude, place.latitude, place.elevation, xyz.data());
  return Vec3{xyz[0], xyz[1], xyz[2]} * (1.0 / ERFA_DAU);
}

Position seen_from(const Place& place, Instant when, Vec3 sun, double sidereal) {
  const Vec3 topocentric = to_earth(sun, sidereal) - observer(place);
  const Vec3 local = to_local(topocentric, place.latitude, place.longitude);
  Position p;
  p.when = when;
  p.azimuth = std::atan2(local.x, local.y);
  if (p.azimuth < 0.0) p.azimuth += 2.0 * kPi;
  p.true_elevation = std::atan2(local.z, std::hypot(local.x, local.y));
  p.elevation =
      p.true_elevation + refraction(p.true_elevation, pressure_of(place), place.temperature);
  p.distance_au = length(sun);
  p.towards = direction(place, p.azimuth, p.elevation);
  return p;
}

double sidereal_mean(double ut_days, double delta_t_s) {
  return eraGmst00(kEpochJd, ut_days, kEpochJd, ut_days + delta_t_s / 86400.0);
}

}  // namespace

Vec3 direction(const Place& place, double azimuth, double elevation) {
  const double from_y = azimuth - place.grid_north;  // clockwise from the model's +y
  return {std::sin(from_y) * std::cos(elevation), std::cos(from_y) * std::cos(elevation),
          std::sin(elevation)};
}

double pressure_of(const Place& place) {
  if (place.pressure > 0.0) return place.pressure;
  // Standard atmosphere (ISO 2533), constants as the pvlib library rounds them: 1013.25 hPa at sea
  // level.
  return std::pow((44331.514 - place.elevation) / 11880.516, 1.0 / 0.1902632);
}

double refraction(double true_elevation, double pressure, double temperature) {
  if (true_elevation < kLowestRefracted) return 0.0;
  const double e = true_elevation / kDegree;
  // Reda & Andreas 2004, eq. 42 (Saemundsson 1986).
  return kDegree * (pressure / 1010.0) * (283.0 / (273.0 + temperature)) * 1.02 /
         (60.0 * std::tan((e + 10.3 / (e + 5.11)) * kDegree));
}

// Espenak & Meeus, NASA/TP-2006-214141, "Polynomial expressions for ΔT".
double delta_t(Instant when) {
  const double y = 2000.0 + when.ut_days / 365.25;
  const auto poly = [](double t, std::initializer_list<double> c) {
    double sum = 0.0;
    for (const double* k = c.end(); k != c.begin();) sum = sum * t + *--k;
    return sum;
  };
  if (y < 1860) {
    return poly(y - 1800, {13.72, -0.332447, 0.0068612, 0.0041116, -0.00037436, 0.0000121272,
                           -0.0000001699, 0.000000000875});
  }
  if (y < 1900) {
    return poly(y - 1860, {7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1.0 / 233174.0});
  }
  if (y < 1920) return poly(y - 1900, {-2.79, 1.494119, -0.0598939, 0.0061966, -0.000197});
  if (y < 1941) return poly(y - 1920, {21.20, 0.84493, -0.076100, 0.0020936});
  if (y < 1961) return poly(y - 1950, {29.07, 0.407, -1.0 / 233.0, 1.0 / 2547.0});
  if (y < 1986) return poly(y - 1975, {45.45, 1.067, -1.0 / 260.0, -1.0 / 718.0});
  if (y < 2005) {
    return poly(y - 2000, {63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599});
  }
  if (y < 2050) return poly(y - 2000, {62.92, 0.32217, 0.005589});
  const double u = (y - 1820.0) / 100.0;
  return -20.0 + 32.0 * u * u - 0.5628 * (2150.0 - y);
}

Position position(const Place& place, Instant when, double delta_t_s) {
  const double tt = when.ut_days + delta_t_s / 86400.0;
  const Vec3 sun = apparent_sun(kEpochJd, tt);
  const double sidereal = sidereal_mean(when.ut_days, delta_t_s) + eraEe00b(kEpochJd, tt);
  return seen_from(place, when, sun, sidereal);
}

Position position(const Place& place, Instant when) {
  return position(place, when, delta_t(when));
}

Track::Track(const Place& place, Instant from, Instant to) : place_(place) {
  from_ = from.ut_days - kNodeSpacing;  // one node before, two after: cubics need them
  const int count = 4 + static_cast<int>(std::ceil((to.ut_days - from.ut_days) / kNodeSpacing));
  for (int k = 0; k < count; ++k) {
    const double ut = from_ + k * kNodeSpacing;
    const double tt = ut + delta_t({ut}) / 86400.0;
    nodes_.push_back({apparent_sun(kEpochJd, tt), eraEe00b(kEpochJd, tt)});
  }
}

Track::Node Track::node_at(Instant when) const {
  const double u = (when.ut_days - from_) / kNodeSpacing;
  const int k = std::clamp(static_cast<int>(std::floor(u)), 1, static_cast<int>(nodes_.size()) - 3);
  const double t = u - k;
  const std::array<double, 4> w{-t * (t - 1) * (t - 2) / 6, (t + 1) * (t - 1) * (t - 2) / 2,
                                -(t + 1) * t * (t - 2) / 2, (t + 1) * t * (t - 1) / 6};
  Node sum{{}, 0.0};
  for (int m = 0; m < 4; ++m) {
    const Node& n = nodes_[static_cast<std::size_t>(k) + static_cast<std::size_t>(m) - 1];
    const double f = w[static_cast<std::size_t>(m)];
    sum.sun = sum.sun + n.sun * f;
    sum.equinox += n.equinox * f;
  }
  return sum;
}

Position Track::at(Instant when) const {
  const Node n = node_at(when);
  return seen_from(place_, when, n.sun, sidereal_mean(when.ut_days, delta_t(when)) + n.equinox);
}

double Track::altitude(Instant when) const {
  const Node n = node_at(when);
  const double sidereal = sidereal_mean(when.ut_days, delta_t(when)) + n.equinox;
  const Vec3 local = to_local(to_earth(n.sun, sidereal), place_.latitude, place_.longitude);
  return std::atan2(local.z, std::hypot(local.x, local.y));
}

double Track::hour_angle(Instant when) const {
  const Node n = node_at(when);
  const double sidereal = sidereal_mean(when.ut_days, delta_t(when)) + n.equinox;
  const double angle = sidereal + place_.longitude - std::atan2(n.sun.y, n.sun.x);
  return std::remainder(angle, 2.0 * kPi);
}

}  // namespace hummock::sun

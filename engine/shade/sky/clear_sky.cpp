#include "engine/shade/sky/clear_sky.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {
namespace {

constexpr double kSolarConstant = 1361.0;  // W/m², Kopp & Lean 2011
constexpr double kSeaPressure = 101325.0;  // Pa

double square(double x) {
  return x * x;
}

}  // namespace

double haurwitz(double elevation) {
  const double cos_zenith = std::sin(elevation);
  if (cos_zenith <= 0.0) return 0.0;
  return 1098.0 * cos_zenith * std::exp(-0.059 / cos_zenith);
}

double erbs_diffuse_share(double k) {
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k > 0.8) return 0.165;
  return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

Irradiance haurwitz_sky(double elevation, double distance_au) {
  Irradiance sky;
  sky.global = haurwitz(elevation);
  if (sky.global <= 0.0) return sky;
  const double above = kSolarConstant / square(distance_au) * std::sin(elevation);
  sky.diffuse = sky.global * erbs_diffuse_share(sky.global / above);
  sky.direct = (sky.global - sky.diffuse) / std::sin(elevation);
  return sky;
}

Irradiance solis_sky(double elevation, double aerosol, double water_cm, double pressure_pa,
                     double extraterrestrial) {
  const double s = std::sin(elevation);
  if (s <= 0.0) return {};
  const double a = aerosol;
  const double w = std::max(water_cm, 0.2);
  const double lw = std::log(w);
  const double lp = std::log(pressure_pa / kSeaPressure);
  // Numbers as in the paper's tables, in its order.
  const double i0 =
      extraterrestrial * ((0.12 * std::pow(w, 0.56)) * a * a + 0.97 * std::pow(w, 0.032) * a +
                          1.08 * std::pow(w, 0.0051) + 0.071 * lp);
  const double tau_b = (1.82 + 0.056 * lw + 0.0071 * lw * lw) * a +
                       (0.33 + 0.045 * lw + 0.0096 * lw * lw) + (0.0089 * w + 0.13) * lp;
  const double b =
      (0.00925 * a * a + 0.0148 * a - 0.0172) * lw + (-0.7565 * a * a + 0.5057 * a + 0.4557);
  const double tau_g = (1.24 + 0.047 * lw + 0.0061 * lw * lw) * a +
                       (0.27 + 0.043 * lw + 0.0090 * lw * lw) + (0.0079 * w + 0.1) * lp;
  const double g = -0.0147 * lw - 0.3079 * a * a + 0.2846 * a + 0.3798;
  const double td4 = -0.21 * w + 11.6, td3 = 0.27 * w - 20.7, td2 = -0.134 * w + 15.5,
               td1 = 0.0554 * w - 5.71, td0 = 0.0057 * w + 2.94;
  const double tdp = -0.71 * std::pow(1.0 + a, -15.0);
  const double tau_d = (((td4 * a + td3) * a + td2) * a + td1) * a + td0 + tdp * lp;
  const double d = -0.337 * a * a + 0.63 * a + 0.116 + lp / (18.0 + 152.0 * a);
  Irradiance sky;
  sky.direct = i0 * std::exp(-tau_b / std::pow(s, b));
  sky.global = i0 * std::exp(-tau_g / std::pow(s, g)) * s;
  sky.diffuse = i0 * std::exp(-tau_d / std::pow(s, d));
  return sky;
}

Irradiance clear_sky(SkyModel model, const Place& place, const sun::Position& at) {
  if (model == SkyModel::haurwitz) return haurwitz_sky(at.elevation, at.distance_au);
  return solis_sky(at.elevation, 0.1, 1.0, sun::pressure_of(place) * 100.0,
                   kSolarConstant / square(at.distance_au));
}

}  // namespace hummock::shade

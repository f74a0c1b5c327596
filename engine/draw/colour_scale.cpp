#include "engine/draw/colour_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "geometry/vec.h"

namespace hummock::draw {
namespace {

double to_srgb(double linear) {
  const double c = std::clamp(linear, 0.0, 1.0);
  return c <= 0.0031308 ? 12.92 * c : 1.055 * std::pow(c, 1.0 / 2.4) - 0.055;
}

double to_linear(double srgb) {
  return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4);
}

double cube(double v) {
  return v * v * v;
}

Colour from_lch(double l, double chroma, double hue_degrees) {
  const double h = hue_degrees * geom::kDegree;
  return from_oklab(l, chroma * std::cos(h), chroma * std::sin(h));
}

}  // namespace

Colour from_oklab(double l, double a, double b) {
  const double l_ = cube(l + 0.3963377774 * a + 0.2158037573 * b);
  const double m_ = cube(l - 0.1055613458 * a - 0.0638541728 * b);
  const double s_ = cube(l - 0.0894841775 * a - 1.2914855480 * b);
  return {to_srgb(4.0767416621 * l_ - 3.3077115913 * m_ + 0.2309699292 * s_),
          to_srgb(-1.2684380046 * l_ + 2.6097574011 * m_ - 0.3413193965 * s_),
          to_srgb(-0.0041960863 * l_ - 0.7034186147 * m_ + 1.7076147010 * s_), 1.0};
}

double lightness(const Colour& c) {
  const double r = to_linear(c.r);
  const double g = to_linear(c.g);
  const double b = to_linear(c.b);
  const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return 0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s;
}

Colour sequential(double t) {
  t = std::clamp(t, 0.0, 1.0);
  // Chroma swells past the middle, where sRGB has room at every hue passed.
  const double chroma = 0.052 + 0.06 * t * std::sin(geom::kPi * t);
  return from_lch(0.28 + 0.66 * t, chroma, 262.0 - 172.0 * t);
}

Colour two_sided(double t) {
  t = std::clamp(t, -1.0, 1.0);
  const double strength = std::abs(t);
  return from_lch(0.95 - 0.55 * strength, 0.012 + 0.076 * strength, t < 0.0 ? 250.0 : 58.0);
}

std::string hex(const Colour& c) {
  const auto byte = [](double v) {
    return static_cast<int>(std::lround(255.0 * std::clamp(v, 0.0, 1.0)));
  };
  return fmt::format("#{:02x}{:02x}{:02x}", byte(c.r), byte(c.g), byte(c.b));
}

}  // namespace hummock::draw

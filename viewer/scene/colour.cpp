#include "viewer/scene/colour.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/draw/colour_scale.h"

namespace hummock::viewer {

Colour scale_colour(Scale scale, double t) {
  t = std::clamp(t, 0.0, 1.0);
  const draw::Colour c = scale == Scale::two_sided
                             ? draw::two_sided(2.0 * t - 1.0)
                             : draw::sequential(scale == Scale::rising ? t : 1.0 - t);
  return {static_cast<float>(c.r), static_cast<float>(c.g), static_cast<float>(c.b), 1.0F};
}

std::vector<unsigned char> scale_table(Scale scale) {
  std::vector<unsigned char> bytes;
  for (int k = 0; k < 256; ++k) {
    const Colour c = scale_colour(scale, k / 255.0);
    for (const float v : {c.r, c.g, c.b, 1.0F})
      bytes.push_back(static_cast<unsigned char>(std::lround(v * 255.0F)));
  }
  return bytes;
}

Colour hex(const std::string& text) {
  if (text.size() != 7 || text[0] != '#') throw std::invalid_argument("not #RRGGBB: " + text);
  const unsigned long v = std::stoul(text.substr(1), nullptr, 16);
  return {static_cast<float>(v >> 16 & 255) / 255.0F, static_cast<float>(v >> 8 & 255) / 255.0F,
          static_cast<float>(v & 255) / 255.0F, 1.0F};
}

Colour mix(Colour a, Colour b, float t) {
  return {a.r + (b.r - a.r) * t, a.g + (b.g - a.g) * t, a.b + (b.b - a.b) * t,
          a.a + (b.a - a.a) * t};
}

}  // namespace hummock::viewer

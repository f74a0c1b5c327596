// Colours as the viewer uses them: sRGB 0..1, single precision, with alpha.
//
// The scales of the map layers are the engine's (engine/draw/colour_scale.h: lightness in a
// straight line through OKLab), so a layer looks the same on the screen, in a map file and in the
// report.
#pragma once

#include <string>
#include <vector>

namespace hummock::viewer {

struct Colour {
  float r = 0, g = 0, b = 0, a = 1;
};

enum class Scale { rising, falling, two_sided };  // falling: dark means much
// t in 0..1; two-sided: the middle is zero.
Colour scale_colour(Scale scale, double t);
// 256 colours, RGBA bytes.
std::vector<unsigned char> scale_table(Scale scale);

// "#RRGGBB" to a colour; for the constants of the look. Throws std::invalid_argument.
Colour hex(const std::string& text);
Colour mix(Colour a, Colour b, float t);

}  // namespace hummock::viewer

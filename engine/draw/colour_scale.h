// Colours for numbers: even steps to the eye, safe for the colour-blind, readable in grey.
//
// Built here, not copied: a straight rise of lightness in OKLab (B. Ottosson, "A perceptual color
// space for image processing", 2020) while hue runs from a deep blue through a muted green-grey to
// a pale sand, chroma kept inside sRGB. Lightness alone orders the values, so a grey print and
// every kind of colour-blindness keep the order. The two-sided scale has its lightest point at
// zero.
#pragma once

#include <string>

namespace hummock::draw {

struct Colour {
  double r = 0.0, g = 0.0, b = 0.0, a = 1.0;  // sRGB, 0..1
  friend bool operator==(const Colour&, const Colour&) = default;
};

// t in 0..1 (clamped): dark blue → pale sand.
Colour sequential(double t);
// t in −1..1 (clamped): blue ← pale → brown.
Colour two_sided(double t);

// OKLab lightness 0..1 of an sRGB colour, for tests and for choosing text colours.
double lightness(const Colour& colour);

// OKLab to sRGB; components outside the gamut are clamped.
Colour from_oklab(double l, double a, double b);

std::string hex(const Colour& colour);  // "#rrggbb"

}  // namespace hummock::draw

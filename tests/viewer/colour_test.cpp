#include "viewer/scene/colour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace hummock::viewer {
namespace {

double linear(double v) {
  return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
}

struct Oklab {
  double L = 0, a = 0, b = 0;
};

// Ottosson, "A perceptual color space for image processing", 2020: sRGB to OKLab.
Oklab to_oklab(Colour c) {
  const double r = linear(c.r);
  const double g = linear(c.g);
  const double b = linear(c.b);
  const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return {0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
          1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
          0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

double distance(Colour a, Colour b) {
  const Oklab p = to_oklab(a);
  const Oklab q = to_oklab(b);
  return std::hypot(p.L - q.L, p.a - q.a, p.b - q.b);
}

// Red-, green- and blue-blind seeing at full severity: Machado, Oliveira & Fernandes, "A
// physiologically-based model for simulation of color vision deficiency", IEEE TVCG 15(6) 2009,
// table 1 (figures from memory), applied to linear RGB.
constexpr double kBlind[3][3][3] = {{{0.152286, 1.052583, -0.204868},
                                     {0.114503, 0.786281, 0.099216},
                                     {-0.003882, -0.048116, 1.051998}},
                                    {{0.367322, 0.860646, -0.227968},
                                     {0.280085, 0.672501, 0.047413},
                                     {-0.011820, 0.042940, 0.968881}},
                                    {{1.255528, -0.076749, -0.178779},
                                     {-0.078411, 0.930809, 0.147602},
                                     {0.004733, 0.691367, 0.303900}}};

double blind_lightness(Colour c, int kind) {
  const double in[3] = {linear(c.r), linear(c.g), linear(c.b)};
  double out[3];
  for (int r = 0; r < 3; ++r) {
    out[r] = 0;
    for (int k = 0; k < 3; ++k) out[r] += kBlind[kind][r][k] * in[k];
    out[r] = std::clamp(out[r], 0.0, 1.0);
  }
  return std::cbrt(0.2126 * out[0] + 0.7152 * out[1] + 0.0722 * out[2]);
}

// Expected values of the table in Ottosson's post, XYZ to OKLab: white (0.950, 1.000, 1.089) is
// (1.000, 0.000, 0.000); sRGB white is that white to three places.
TEST(Colour, white_is_light_one_without_hue) {
  const Oklab white = to_oklab({1, 1, 1, 1});
  EXPECT_NEAR(white.L, 1.0, 1e-3);
  EXPECT_NEAR(white.a, 0.0, 1e-3);
  EXPECT_NEAR(white.b, 0.0, 1e-3);
}

TEST(Colour, lightness_of_the_scale_rises_without_a_turn_also_for_the_colour_blind) {
  for (int k = 1; k <= 32; ++k) {
    const Colour a = scale_colour(Scale::rising, (k - 1) / 32.0);
    const Colour b = scale_colour(Scale::rising, k / 32.0);
    EXPECT_GT(to_oklab(b).L, to_oklab(a).L);
    for (int kind = 0; kind < 3; ++kind)
      EXPECT_GT(blind_lightness(b, kind), blind_lightness(a, kind))
          << "step " << k << " kind " << kind;
  }
}

TEST(Colour, equal_steps_of_value_are_equal_steps_to_the_eye) {
  for (const Scale scale : {Scale::rising, Scale::falling, Scale::two_sided}) {
    std::vector<double> steps;
    for (int k = 1; k <= 16; ++k)  // even: the middle of a two-sided scale is a step
      steps.push_back(distance(scale_colour(scale, (k - 1) / 16.0), scale_colour(scale, k / 16.0)));
    const auto [least, most] = std::minmax_element(steps.begin(), steps.end());
    EXPECT_LT(*most / *least, 1.12);
  }
}

TEST(Colour, both_sides_of_a_two_sided_scale_weigh_the_same) {
  for (int k = 1; k <= 8; ++k) {
    const double off = k / 16.0;
    EXPECT_NEAR(to_oklab(scale_colour(Scale::two_sided, 0.5 - off)).L,
                to_oklab(scale_colour(Scale::two_sided, 0.5 + off)).L, 0.03);
  }
}

TEST(Colour, a_falling_scale_is_the_rising_one_turned_round) {
  EXPECT_LT(distance(scale_colour(Scale::falling, 0.0), scale_colour(Scale::rising, 1.0)), 1e-9);
}

TEST(Colour, text_that_is_no_colour_is_refused) {
  EXPECT_THROW(hex("22707A"), std::invalid_argument);
}

}  // namespace
}  // namespace hummock::viewer

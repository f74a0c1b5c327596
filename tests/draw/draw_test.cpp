#include <cairo.h>
#include <gtest/gtest.h>

#include <random>

#include "engine/draw/canvas.h"
#include "engine/draw/colour_scale.h"
#include "engine/draw/site_plan.h"

namespace hummock::draw {
namespace {

TEST(ColourScale, LightnessRisesEvenlySoThatGreyPrintsKeepTheOrder) {
  // Even steps: each of 32 within a fifth of the mean step (8-bit rounding and clamping included).
  const double whole = lightness(sequential(1.0)) - lightness(sequential(0.0));
  for (int k = 0; k < 32; ++k) {
    const double step = lightness(sequential((k + 1) / 32.0)) - lightness(sequential(k / 32.0));
    EXPECT_NEAR(step, whole / 32, 0.2 * whole / 32) << k;
  }
}

TEST(ColouredLayer, GivesEachValueTheColourItHasAlone) {
  std::mt19937 engine(77);
  std::uniform_real_distribution<float> value(-0.2F, 1.2F);
  std::vector<float> some(6000);
  for (float& v : some) v = value(engine);
  for (const bool two_sided : {false, true}) {
    const LayerLook look{two_sided, 0.0, 1.0, 0, two_sided};
    geom::Raster map(geom::Grid{0, 0, 1.0, 200, 100});
    for (std::size_t n = 0; n < map.values.size(); ++n)
      map.values[n] = some[n % 3 == 0 ? n % 7 : (n * 31) % some.size()];
    const ColouredLayer layer = coloured(map, look);
    geom::Raster one(geom::Grid{0, 0, 1.0, 1, 1});
    for (int j = 0; j < map.grid.ny; ++j)
      for (int i = 0; i < map.grid.nx; ++i) {
        one.values[0] = map.at(i, j);
        ASSERT_EQ(layer.pixels[map.grid.index(i, map.grid.ny - 1 - j)],
                  coloured(one, look).pixels[0]);
      }
  }
}

TEST(ColourScale, NoColourIsClampedByTheScreensGamut) {
  for (int k = 0; k <= 64; ++k) {
    for (const Colour& c : {sequential(k / 64.0), two_sided(k / 32.0 - 1.0)}) {
      for (double v : {c.r, c.g, c.b}) {
        EXPECT_GT(v, 0.0) << k;
        EXPECT_LT(v, 1.0) << k;
      }
    }
  }
}

// Brettel, Viénot & Mollon (1997) / Viénot et al. (1999) dichromat simulation, one matrix in linear
// RGB (from memory): for both red- and green-blind eyes the scale still runs from dark to light.
TEST(ColourScale, RedAndGreenBlindEyesSeeTheSameOrder) {
  const double protan[3] = {0.11238, 0.88762, 0.0};
  const double deutan[3] = {0.29275, 0.70725, 0.0};
  for (const auto& m : {protan, deutan}) {
    double before = -1.0;
    for (int k = 0; k <= 16; ++k) {
      const Colour c = sequential(k / 16.0);
      const auto lin = [](double v) {
        return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
      };
      const double seen = m[0] * lin(c.r) + m[1] * lin(c.g) + m[2] * lin(c.b);
      EXPECT_GT(seen, before) << k;
      before = seen;
    }
  }
}

TEST(ColourScale, TheTwoSidedScaleIsLightestAtZero) {
  EXPECT_GT(lightness(two_sided(0.0)), 0.93);
  EXPECT_NEAR(lightness(two_sided(-1.0)), lightness(two_sided(1.0)), 0.02);
}

TEST(Plan, TenMetresMeasureTenCentimetresAtOneToAHundred) {
  PlanFrame frame;
  frame.scale = 100.0;
  EXPECT_NEAR(frame.sheet({10, 0}).x - frame.sheet({0, 0}).x, 100.0, 1e-9);
  EXPECT_NEAR(frame.sheet({0, 0}).y - frame.sheet({0, 10}).y, 100.0, 1e-9);
}

TEST(Plan, TheScaleIsTheLargestRoundOneThatFits) {
  const PlanFrame frame = fit({{0, 0}, {12, 9}}, {6, 12}, {132, 106});
  EXPECT_EQ(frame.scale, 100.0);  // 12 m in 132 mm asks for 1 : 90.9
  EXPECT_EQ(fit({{0, 0}, {200, 9}}, {0, 0}, {132, 106}).scale, 2000.0);
  EXPECT_EQ(fit({{0, 0}, {13.2, 1}}, {0, 0}, {132, 106}).scale, 100.0);
}

// Dark pixels of a drawn picture, as the smallest box around them.
geom::Box2 dark_box(const Figure& figure, double dots) {
  const int w = static_cast<int>(figure.size.x * dots);
  const int h = static_cast<int>(figure.size.y * dots);
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, w, h);
  cairo_t* cairo = cairo_create(surface);
  cairo_scale(cairo, dots, dots);
  Canvas canvas(cairo, figure.size);
  canvas.fill({{0, 0}, {figure.size.x, 0}, figure.size, {0, figure.size.y}}, kPaper);
  figure.draw(canvas);
  cairo_surface_flush(surface);
  geom::Box2 box;
  const unsigned char* data = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      if (data[y * stride + 4 * x] < 128) box.add({x / dots, y / dots});
    }
  }
  cairo_destroy(cairo);
  cairo_surface_destroy(surface);
  return box;
}

TEST(Plan, APaintedTenMetreSquareMeasuresRightInPixels) {
  Figure figure;
  figure.size = {150, 150};
  figure.draw = [](Canvas& canvas) {
    PlanFrame frame;
    frame.middle = {75, 75};
    frame.scale = 100.0;
    canvas.fill(
        {frame.sheet({-5, -5}), frame.sheet({5, -5}), frame.sheet({5, 5}), frame.sheet({-5, 5})},
        kInk);
  };
  const geom::Box2 box = dark_box(figure, 10.0);
  EXPECT_NEAR(box.hi.x - box.lo.x, 100.0, 0.15);
  EXPECT_NEAR(box.hi.y - box.lo.y, 100.0, 0.15);
}

TEST(Canvas, TheSameDrawingGivesTheSameBytes) {
  Figure figure;
  figure.draw = [](Canvas& canvas) {
    canvas.words({10, 10}, "Größe <&> שלום", {.size = 4});
    canvas.hatch({{20, 20}, {60, 20}, {60, 60}}, {}, 2.0, 0.7);
  };
  EXPECT_EQ(png_bytes(figure), png_bytes(figure));
  EXPECT_EQ(svg_text(figure), svg_text(figure));
}

}  // namespace
}  // namespace hummock::draw

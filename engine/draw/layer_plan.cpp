// A map layer on a plan, and its legend.
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

#include "engine/draw/plan_lines.h"

namespace hummock::draw {

namespace {

struct Range {
  double low = 0.0;
  double high = 1.0;
};

Range range_of(const geom::Raster& raster, const LayerLook& look) {
  if (look.low < look.high) return {look.low, look.high};
  Range r{INFINITY, -INFINITY};
  for (float v : raster.values) {
    if (std::isnan(v)) continue;
    r.low = std::min(r.low, static_cast<double>(v));
    r.high = std::max(r.high, static_cast<double>(v));
  }
  if (!(r.low <= r.high)) return {};
  if (look.two_sided) {
    const double most = std::max({std::abs(r.low), std::abs(r.high), 1e-9});
    return {-most, most};
  }
  if (r.high - r.low < 1e-9) r.high = r.low + 1e-9;
  return r;
}

Colour colour_at(double value, const Range& range, const LayerLook& look) {
  const double t = (value - range.low) / (range.high - range.low);
  return look.two_sided ? two_sided(2.0 * t - 1.0) : sequential(look.reversed ? 1.0 - t : t);
}

std::uint32_t argb(const Colour& c) {
  const auto byte = [](double v) { return static_cast<std::uint32_t>(std::lround(255.0 * v)); };
  return 0xFF000000U | (byte(c.r) << 16) | (byte(c.g) << 8) | byte(c.b);
}

// A map has few values on most of its nodes (the hours under an open sky, no shade at all), and a
// colour is three powers: of the values that share a place here the last is kept.
class Pixels {
 public:
  Pixels(const Range& range, const LayerLook& look)
      : range_(range), look_(look), kept_(std::size_t{1} << kBits) {}
  std::uint32_t of(float v) {
    const auto bits = std::bit_cast<std::uint32_t>(v);
    constexpr std::uint32_t kSpread = 2654435769U;  // 2^32 over the golden ratio
    Kept& kept = kept_[bits * kSpread >> (32U - kBits)];
    // No colour is 0: all are opaque.
    if (kept.pixel == 0 || kept.bits != bits) kept = {bits, argb(colour_at(v, range_, look_))};
    return kept.pixel;
  }

 private:
  static constexpr std::uint32_t kBits = 12;
  struct Kept {
    std::uint32_t bits = 0, pixel = 0;
  };
  const Range& range_;
  const LayerLook& look_;
  std::vector<Kept> kept_;
};

double contour_step(const Range& range, const LayerLook& look) {
  return geom::round_step(range.low, range.high, look.contour_count);
}

}  // namespace

ColouredLayer coloured(const geom::Raster& raster, const LayerLook& look) {
  const geom::Grid& g = raster.grid;
  const Range range = range_of(raster, look);
  ColouredLayer layer{g, std::vector<std::uint32_t>(g.size(), 0U), {}};
  Pixels pixels(range, look);
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      const float v = raster.at(i, j);
      if (!std::isnan(v)) layer.pixels[g.index(i, g.ny - 1 - j)] = pixels.of(v);
    }
  }
  if (look.contour_count > 0 && range.high - range.low > 1e-6) {
    for (auto& c : geom::contours(raster, contour_step(range, look))) {
      const bool on_dark = lightness(colour_at(c.level, range, look)) < 0.55;
      layer.lines.push_back({std::move(c), on_dark});
    }
  }
  return layer;
}

void draw_layer(Canvas& canvas, const Model& model, const ColouredLayer& layer,
                const PlanFrame& frame) {
  const geom::Grid& g = layer.grid;
  const double half = 0.5 * g.cell;
  const Vec2 top_left = frame.sheet({g.x0 - half, g.y_max() + half});
  const Vec2 bottom_right = frame.sheet({g.x_max() + half, g.y0 - half});
  canvas.clip_to(on_sheet(frame, model.outline));
  canvas.picture(top_left, bottom_right - top_left, g.nx, g.ny, layer.pixels);
  for (const auto& [c, on_dark] : layer.lines) {
    canvas.line(on_sheet(frame, c.line),
                {on_dark ? Colour{1, 1, 1, 0.8} : Colour{0.1, 0.1, 0.1, 0.7}, 0.15});
    if (c.line.size() > 40) {
      canvas.words(frame.sheet(c.line[c.line.size() / 2]), fmt::format("{:.4g}", c.level),
                   {.size = 1.8, .halo = true});
    }
  }
  canvas.unclip();
}

void draw_legend(Canvas& canvas, const geom::Raster& raster, const LayerLook& look, Vec2 top_left,
                 Vec2 extent, const std::string& title, const std::string& unit) {
  const Range range = range_of(raster, look);
  canvas.words(top_left + Vec2{0, -2.0}, unit == "1" ? title : title + ", " + unit, {.size = 2.5});
  constexpr int kSteps = 64;
  const double h = extent.y / kSteps;
  for (int k = 0; k < kSteps; ++k) {
    const double value = range.high - (range.high - range.low) * (k + 0.5) / kSteps;
    const Vec2 p = top_left + Vec2{0, k * h};
    canvas.fill({p, p + Vec2{extent.x, 0}, p + Vec2{extent.x, h + 0.05}, p + Vec2{0, h + 0.05}},
                colour_at(value, range, look));
  }
  canvas.line(
      {top_left, top_left + Vec2{extent.x, 0}, top_left + extent, top_left + Vec2{0, extent.y}},
      {kInk, 0.15}, true);
  const double step = geom::round_step(range.low, range.high, 6);
  for (double k = std::ceil(range.low / step - 1e-9); k * step <= range.high + 1e-9 * step;
       k += 1) {
    const double y = top_left.y + extent.y * (range.high - k * step) / (range.high - range.low);
    canvas.line({{top_left.x + extent.x, y}, {top_left.x + extent.x + 1.2, y}}, {kInk, 0.2});
    canvas.words({top_left.x + extent.x + 2.0, y + 0.8}, fmt::format("{:.4g}", k * step + 0.0),
                 {.size = 2.2});
  }
}

}  // namespace hummock::draw

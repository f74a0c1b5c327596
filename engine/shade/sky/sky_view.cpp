#include "engine/shade/sky/sky_view.h"

#include <algorithm>
#include <cmath>

namespace hummock::shade {

std::vector<SkyPatch> sky_patches() {
  constexpr int kAround = kSkyDirections / kSkyRings;
  const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
  const double width = 2.0 * geom::kPi / kAround;
  // ∫ sin² over the zenith angle from 0, and the shrinking of a direction's mean over the width.
  const auto sideways = [](double zenith) { return zenith / 2 - std::sin(2 * zenith) / 4; };
  const double mean = std::sin(width / 2) / (width / 2);
  std::vector<SkyPatch> patches;
  for (int ring = 0; ring < kSkyRings; ++ring) {
    const double inner = std::asin(std::sqrt(static_cast<double>(ring) / kSkyRings));
    const double outer = std::asin(std::sqrt((ring + 1.0) / kSkyRings));
    const double middle = std::asin(std::sqrt((ring + 0.5) / kSkyRings));
    const double side = (sideways(outer) - sideways(inner)) * width * mean / geom::kPi;
    const double shift = std::fmod(ring * golden, 1.0);
    for (int k = 0; k < kAround; ++k) {
      const double azimuth = width * (k + shift);
      const Vec2 out{std::sin(azimuth), std::cos(azimuth)};
      const Vec2 flat = out * std::sin(middle);
      patches.push_back(
          {sun_ray(Vec3{flat.x, flat.y, std::cos(middle)}), 1.0 / kSkyDirections, out * side});
    }
  }
  return patches;
}

namespace {

// Does the patch shine on every slope of the tile?
bool shines_everywhere(const SkyPatch& patch, const Tile& t) {
  const double x = std::max(t.gx0 * patch.side.x, t.gx1 * patch.side.x);
  const double y = std::max(t.gy0 * patch.side.y, t.gy1 * patch.side.y);
  return x + y <= patch.level;
}

}  // namespace

void sky_view(const FastBeam& fast, const Tile& tile, const std::vector<SkyPatch>& sky,
              const std::vector<GroundStatus>& sweeps, const std::vector<std::vector<int>>& near,
              const sun::Date& date, std::array<double, kTileNodes>& view) {
  view.fill(0.0);
  TileBeam beam;
  SkyPatch whole;  // the patches that shine on all of the tile alike
  for (std::size_t p = 0; p < sky.size(); ++p) {
    const SkyPatch& patch = sky[p];
    fast.tile(tile, patch.ray, date, near[p], {false, &sweeps[p]}, beam);
    if (beam.uniform && (beam.value <= 0.0F || shines_everywhere(patch, tile))) {
      whole.level += beam.value * patch.level;
      whole.side = whole.side + patch.side * beam.value;
      continue;
    }
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      const double light = patch.level - tile.gx[k] * patch.side.x - tile.gy[k] * patch.side.y;
      view[k] += beam.at(k) * std::max(0.0, light);
    }
  }
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    const double gx = tile.gx[k], gy = tile.gy[k];
    view[k] += whole.level - gx * whole.side.x - gy * whole.side.y;
    view[k] /= std::sqrt(1.0 + gx * gx + gy * gy);
  }
}

}  // namespace hummock::shade

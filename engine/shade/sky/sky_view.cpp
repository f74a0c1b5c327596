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

class ViewSums {
 public:
  explicit ViewSums(const Tile& tile) : tile_(tile) {}

  void add(const SkyPatch& patch, const TileBeam& beam) {
    if (beam.uniform && (beam.value <= 0.0F || shines_everywhere(patch, tile_))) {
      whole_.level += beam.value * patch.level;
      whole_.side = whole_.side + patch.side * beam.value;
      return;
    }
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      const double light = patch.level - tile_.gx[k] * patch.side.x - tile_.gy[k] * patch.side.y;
      view_[k] += beam.at(k) * std::max(0.0, light);
    }
  }

  TileView view() const {
    TileView view = view_;
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      const double gx = tile_.gx[k], gy = tile_.gy[k];
      view[k] += whole_.level - gx * whole_.side.x - gy * whole_.side.y;
      view[k] /= std::sqrt(1.0 + gx * gx + gy * gy);
    }
    return view;
  }

 private:
  const Tile& tile_;
  TileView view_{};
  SkyPatch whole_;  // the patches that shine on all of the tile alike
};

}  // namespace

std::vector<TileView> sky_view(const FastBeam& fast, const std::vector<Tile>& tiles,
                               const TileGroup& group, const std::vector<SkyPatch>& sky,
                               const std::vector<GroundStatus>& sweeps, const sun::Date& date) {
  std::vector<ViewSums> sums;
  for (const std::size_t t : group.tiles) sums.emplace_back(tiles[t]);
  NearShadows shadows;
  TileBeam beam;
  for (std::size_t p = 0; p < sky.size(); ++p) {
    const SunRay& ray = sky[p].ray;
    fast.lay_out(group.box, ray, date, fast.near(group.box, {&ray, 1}), shadows);
    const bool clear = fast.terrain().clear(group.box, {ray.run, ray.run});
    for (std::size_t k = 0; k < group.tiles.size(); ++k) {
      fast.tile(tiles[group.tiles[k]], shadows, {clear, &sweeps[p]}, beam);
      sums[k].add(sky[p], beam);
    }
  }
  std::vector<TileView> views;
  views.reserve(sums.size());
  for (const ViewSums& s : sums) views.push_back(s.view());
  return views;
}

}  // namespace hummock::shade

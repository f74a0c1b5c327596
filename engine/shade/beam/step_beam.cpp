// One moment's beam, and the two ways to a raster of it.
#include "engine/shade/beam/step_beam.h"

#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

void beam_of_step(const FastBeam& fast, const Tile& tile, const std::vector<SunRay>& suns,
                  const std::vector<GroundStatus>& sweeps, const sun::Date& date,
                  std::span<const int> near, TileBeam& beam, TileBeam& scratch) {
  fast.tile(tile, suns.front(), date, near, {false, &sweeps.front()}, beam);
  if (suns.size() == 1) return;
  std::array<float, kTileNodes> sum{};
  for (std::size_t s = 0; s < suns.size(); ++s) {
    fast.tile(tile, suns[s], date, near, {false, &sweeps[s]}, scratch);
    for (std::size_t k = 0; k < kTileNodes; ++k) sum[k] += scratch.at(k);
  }
  beam.uniform = false;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    beam.each[k] = sum[k] / static_cast<float>(suns.size());
  }
}

geom::Raster beam(const Model& model, const sun::Position& at, const Settings& settings) {
  const Place& place = check_settings(model, settings);
  const FastBeam fast(model);
  const geom::Grid grid = grid_for(model.ground, settings.cell);
  const std::vector<Tile> tiles = ground_tiles(model, grid);
  const std::vector<SunRay> suns =
      settings.sun_disc ? disc_rays(place, at) : std::vector<SunRay>{sun_ray(place, at)};
  const std::vector<GroundStatus> sweeps = fast.sweeps(tiles, grid, suns);
  geom::Raster raster(grid);
  over_tiles(tiles.size(), {}, "shade", 0.0, 1.0, [&](std::size_t n) {
    TileBeam b, scratch;
    beam_of_step(fast, tiles[n], suns, sweeps, settings.date, fast.all(), b, scratch);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tiles[n].inside[k] != 0) raster.values[tiles[n].node(grid, k)] = b.at(k);
    }
  });
  return raster;
}

geom::Raster beam_by_rays(const Model& model, const sun::Position& at, const Settings& settings) {
  const Place& place = check_settings(model, settings);
  const std::vector<Caster> casters = casters_of(model);
  const RayBeam rays(model, casters, std::vector<bool>(casters.size(), false));
  const geom::Grid grid = grid_for(model.ground, settings.cell);
  const std::vector<Tile> tiles = ground_tiles(model, grid);
  const SunRay sun = sun_ray(place, at);
  geom::Raster raster(grid);
  over_tiles(tiles.size(), {}, "shade", 0.0, 1.0, [&](std::size_t n) {
    std::array<float, kTileNodes> b{};
    rays.tile(tiles[n], sun, settings.date, b);
    for (std::size_t k = 0; k < kTileNodes; ++k) {
      if (tiles[n].inside[k] != 0) raster.values[tiles[n].node(grid, k)] = b[k];
    }
  });
  return raster;
}

}  // namespace hummock::shade

// One moment's beam, and the two ways to a raster of it.
#include "engine/shade/beam/step_beam.h"

#include "engine/shade/beam/over_tiles.h"
#include "engine/shade/beam/tile_groups.h"
#include "engine/shade/settings.h"
#include "engine/shade/shade.h"

namespace hummock::shade {

void lay_out(const FastBeam& fast, const geom::Box3& box, const std::vector<SunRay>& suns,
             const sun::Date& date, std::span<const int> near, StepShadows& shadows) {
  shadows.suns.resize(suns.size());
  shadows.clear.resize(suns.size());
  for (std::size_t s = 0; s < suns.size(); ++s) {
    fast.lay_out(box, suns[s], date, near, shadows.suns[s]);
    shadows.clear[s] = suns[s].up && fast.terrain().clear(box, {suns[s].run, suns[s].run}) ? 1 : 0;
  }
}

void beam_of_step(const FastBeam& fast, const Tile& tile, const StepShadows& shadows,
                  std::span<const GroundStatus> sweeps, TileBeam& beam, TileBeam& scratch) {
  const auto one = [&](std::size_t s, TileBeam& out) {
    const GroundStatus* sweep = sweeps.empty() ? nullptr : &sweeps[s];
    fast.tile(tile, shadows.suns[s], {shadows.clear[s] != 0, sweep}, out);
  };
  const std::size_t suns = shadows.suns.size();
  if (suns == 1) return one(0, beam);
  std::array<float, kTileNodes> sum{};
  for (std::size_t s = 0; s < suns; ++s) {
    one(s, scratch);
    for (std::size_t k = 0; k < kTileNodes; ++k) sum[k] += scratch.at(k);
  }
  beam.uniform = false;
  for (std::size_t k = 0; k < kTileNodes; ++k) {
    beam.each[k] = sum[k] / static_cast<float>(suns);
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
  const std::vector<TileGroup> groups = group_tiles(tiles);
  over_tiles(groups.size(), {}, "shade", 0.0, 1.0, [&](std::size_t g) {
    StepShadows shadows;
    TileBeam b, scratch;
    const geom::Box3& box = groups[g].box;
    lay_out(fast, box, suns, settings.date, fast.near(box, suns), shadows);
    for (const std::size_t n : groups[g].tiles) {
      beam_of_step(fast, tiles[n], shadows, sweeps, b, scratch);
      for (std::size_t k = 0; k < kTileNodes; ++k)
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

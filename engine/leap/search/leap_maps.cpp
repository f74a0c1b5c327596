#include "engine/leap/search/leap_maps.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/leap/ground/ground_folds.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

geom::Raster ground_map(const Model& model, const TouchLeap& touch, const GroundPlaces& ground) {
  const GroundSquares& sq = *ground.squares;
  geom::Raster raster(model.ground.grid);
  tbb::parallel_for(0, raster.grid.ny, [&](int j) {
    for (int i = 0; i < raster.grid.nx; ++i) {
      const geom::Vec2 p = raster.grid.node(i, j);
      if (!geom::contains(model.outline, p)) continue;
      const int a = std::clamp(static_cast<int>((p.x - sq.x0) / sq.side), 0, sq.nx - 1);
      const int b = std::clamp(static_cast<int>((p.y - sq.y0) / sq.side), 0, sq.ny - 1);
      const char state = sq.state.at(a, b);
      if (state == kCovered || state == kHouse) continue;
      if (state == kPlace && ground.folds->part_at(a, b) == 0) {
        raster.at(i, j) = 0.0F;  // it lives there
        continue;
      }
      const double d = touch.at(at_height(p, model.ground.at(i, j)));
      if (std::isfinite(d)) raster.at(i, j) = static_cast<float>(d);
    }
  });
  return raster;
}

std::map<std::string, std::vector<float>> surface_map(const Model& model, const TouchLeap& touch) {
  std::map<std::string, std::vector<float>> all;
  for (const Part& part : model.parts) {
    std::string name = part.name;
    for (int copy = 2; all.contains(name); ++copy) name = part.name + "#" + std::to_string(copy);
    std::vector<float>& values = all[name];
    values.assign(part.mesh.vertices.size(), std::numeric_limits<float>::quiet_NaN());
    constexpr std::size_t kTile = 256;
    tbb::parallel_for(std::size_t{0}, (values.size() + kTile - 1) / kTile, [&](std::size_t tile) {
      const std::size_t end = std::min(values.size(), (tile + 1) * kTile);
      for (std::size_t v = tile * kTile; v < end; ++v) {
        const double d = touch.at(part.mesh.vertices[v]);
        if (std::isfinite(d)) values[v] = static_cast<float>(d);
      }
    });
  }
  return all;
}

}  // namespace hummock::leap

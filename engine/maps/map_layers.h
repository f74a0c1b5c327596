// Map layers by name, as the list of analyses has them, and writing them as GeoTIFF or ASCII grid.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "engine/check/check.h"
#include "engine/check/layers.h"
#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::maps {

// Of all analyses, in their order.
const std::vector<LayerInfo>& layers();

// Computes one layer on the ground's grid (NaN outside). Throws InputError for an unknown name.
geom::Raster compute(const Model& model, const std::string& layer, const CheckOptions& options,
                     const Progress& progress = {});

// Figures of the animal that the layer is drawn with and that have a careful end, at which another
// map would come out.
std::vector<Assumption> rests_on(const Model& model, const std::string& layer);

struct Band {
  std::string description;  // "2026-06-21 13:40 +01:00"
  const geom::Raster* raster = nullptr;
};
// GeoTIFF (.tif) or ASCII grid (.asc, one band) through GDAL, north-up rows, NaN → nodata −9999,
// shifted by model.origin; written through save_through.
void write_raster(const std::filesystem::path& path, const Model& model,
                  const std::vector<Band>& bands, const std::string& unit);

// The same as GeoTIFF, each band made when its turn comes, so that only one stands in memory.
struct MadeBands {
  geom::Grid grid;
  std::vector<std::string> descriptions;
  std::function<geom::Raster(std::size_t)> make;  // of the band, on that grid
};
void write_bands(const std::filesystem::path& path, const Model& model, const MadeBands& bands,
                 const std::string& unit);

}  // namespace hummock::maps

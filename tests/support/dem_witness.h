// GDAL's own DEM processing of a heightfield, as the outside witness of our raster metrics.
#pragma once

#include <cpl_conv.h>
#include <gdal.h>
#include <gdal_utils.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "geometry/terrain/heightfield.h"

namespace hummock::tests {

struct DatasetCloser {
  void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<void, DatasetCloser>;

// The heights as float32, north-up, in memory.
inline Dataset as_dataset(const geom::Heightfield& ground) {
  GDALAllRegister();
  const geom::Grid& g = ground.grid;
  Dataset out(GDALCreate(GDALGetDriverByName("MEM"), "", g.nx, g.ny, 1, GDT_Float32, nullptr));
  double transform[6] = {g.x0, g.cell, 0.0, g.y0 + g.ny * g.cell, 0.0, -g.cell};
  GDALSetGeoTransform(out.get(), transform);
  std::vector<float> row(static_cast<std::size_t>(g.nx));
  for (int r = 0; r < g.ny; ++r) {
    for (int i = 0; i < g.nx; ++i)
      row[static_cast<std::size_t>(i)] = static_cast<float>(ground.at(i, g.ny - 1 - r));
    if (GDALRasterIO(GDALGetRasterBand(out.get(), 1), GF_Write, 0, r, g.nx, 1, row.data(), g.nx, 1,
                     GDT_Float32, 0, 0) != CE_None)
      throw std::runtime_error("GDAL refused a row");
  }
  return out;
}

// `mode`: slope | aspect | TRI | TPI | roughness. The result stays in memory.
inline Dataset dem_processing(const Dataset& source, const std::string& mode,
                              std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"-of", "MEM"});
  std::vector<char*> argv;
  argv.reserve(options.size() + 1);
  for (std::string& o : options) argv.push_back(o.data());
  argv.push_back(nullptr);
  GDALDEMProcessingOptions* parsed = GDALDEMProcessingOptionsNew(argv.data(), nullptr);
  int error = 0;
  Dataset out(GDALDEMProcessing("", source.get(), mode.c_str(), nullptr, parsed, &error));
  GDALDEMProcessingOptionsFree(parsed);
  if (!out || error != 0) throw std::runtime_error("GDALDEMProcessing failed: " + mode);
  return out;
}

// Back on our grid, NaN where GDAL has no data.
inline geom::Raster as_raster(const Dataset& dataset, const geom::Grid& grid) {
  geom::Raster out(grid);
  GDALRasterBandH band = GDALGetRasterBand(dataset.get(), 1);
  const auto none = static_cast<float>(GDALGetRasterNoDataValue(band, nullptr));
  for (int r = 0; r < grid.ny; ++r) {
    float* row = out.values.data() + grid.index(0, grid.ny - 1 - r);
    if (GDALRasterIO(band, GF_Read, 0, r, grid.nx, 1, row, grid.nx, 1, GDT_Float32, 0, 0) !=
        CE_None)
      throw std::runtime_error("GDAL gave no row");
    for (int i = 0; i < grid.nx; ++i)
      if (row[i] == none) row[i] = geom::Raster::kNone;
  }
  return out;
}

}  // namespace hummock::tests

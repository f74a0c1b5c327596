#include "tests/support/gdal_viewshed.h"

#include <cpl_conv.h>
#include <gdal.h>
#include <gdal_alg.h>
#include <ogr_srs_api.h>

#include <stdexcept>

namespace hummock::tests {

namespace {

void set_projection(GDALDatasetH ds) {  // any projected metre grid will do
  OGRSpatialReferenceH srs = OSRNewSpatialReference(nullptr);
  char* wkt = nullptr;
  if (OSRImportFromEPSG(srs, 32630) != OGRERR_NONE || OSRExportToWkt(srs, &wkt) != OGRERR_NONE)
    throw std::runtime_error("PROJ's database is missing");
  GDALSetProjection(ds, wkt);
  CPLFree(wkt);
  OSRDestroySpatialReference(srs);
}

}  // namespace

GdalGround::GdalGround(const geom::Heightfield& ground) : grid_(ground.grid) {
  GDALAllRegister();
  const int nx = grid_.nx, ny = grid_.ny;
  GDALDatasetH ds = GDALCreate(GDALGetDriverByName("MEM"), "", nx, ny, 1, GDT_Float64, nullptr);
  const double half = 0.5 * grid_.cell;
  double transform[6] = {grid_.x0 - half, grid_.cell, 0.0, grid_.y_max() + half, 0.0, -grid_.cell};
  GDALSetGeoTransform(ds, transform);
  set_projection(ds);
  GDALRasterBandH band = GDALGetRasterBand(ds, 1);
  for (int j = 0; j < ny; ++j) {
    auto* row = const_cast<double*>(&ground.z[grid_.index(0, j)]);
    if (GDALRasterIO(band, GF_Write, 0, ny - 1 - j, nx, 1, row, nx, 1, GDT_Float64, 0, 0) !=
        CE_None)
      throw std::runtime_error("GDAL refused a row");
  }
  dataset_ = ds;
}

GdalGround::~GdalGround() {
  GDALClose(dataset_);
}

std::vector<unsigned char> GdalGround::seen(int i, int j, double eye, double target,
                                            GdalMode mode) const {
  const geom::Vec2 at = grid_.node(i, j);
  GDALDatasetH out = GDALViewshedGenerate(
      GDALGetRasterBand(dataset_, 1), "MEM", "", nullptr, at.x, at.y, eye, target, 1, 0, 0, -1, 0.0,
      static_cast<GDALViewshedMode>(mode), 0, nullptr, nullptr, GVOT_NORMAL, nullptr);
  if (out == nullptr) throw std::runtime_error("GDALViewshedGenerate failed");
  std::vector<unsigned char> seen(grid_.size());
  GDALRasterBandH band = GDALGetRasterBand(out, 1);
  for (int row = 0; row < grid_.ny; ++row)
    if (GDALRasterIO(band, GF_Read, 0, grid_.ny - 1 - row, grid_.nx, 1, &seen[grid_.index(0, row)],
                     grid_.nx, 1, GDT_Byte, 0, 0) != CE_None)
      throw std::runtime_error("GDAL refused to give a row");
  GDALClose(out);
  return seen;
}

void GdalGround::save_tiff(const std::string& path) const {
  GDALDatasetH copy = GDALCreateCopy(GDALGetDriverByName("GTiff"), path.c_str(), dataset_, 0,
                                     nullptr, nullptr, nullptr);
  if (copy == nullptr) throw std::runtime_error("GDAL could not write " + path);
  GDALClose(copy);
}

}  // namespace hummock::tests

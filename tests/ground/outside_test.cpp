// The ground against an independent reader of the same survey: GDAL's own gridding (its linear
// algorithm triangulates with Qhull) and its warper's bilinear resampling.
#include <gdal_alg.h>
#include <gdal_priv.h>
#include <gdalwarper.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <random>

#include "engine/ground/ground.h"
#include "tests/support/yard.h"

namespace hummock {
namespace {

Site surveyed_yard() {
  Site site = test::yard(20, 15, 2.0, SheetKind::mesh, {10, 10});
  site.ground.level.reset();
  site.ground.cell = 0.25;
  return site;
}

std::filesystem::path temporary(const std::string& name) {
  return std::filesystem::temp_directory_path() /
         ("hummock_" + std::to_string(getpid()) + "_" + name);
}

TEST(Outside, ScatteredPointsComeOutAsGdalsLinearGridding) {
  std::mt19937 random(5);  // the seed of the points
  const auto between = [&](double lo, double hi) {
    return lo + (hi - lo) * random() / 4294967296.0;
  };
  std::vector<double> x{-5.1, 55.3, -5.2, 55.7};
  std::vector<double> y{-5.3, -5.7, 45.9, 45.1};
  std::vector<double> z{1, 2, 3, 4};
  for (int k = 0; k < 400; ++k) {
    x.push_back(between(-5, 55));
    y.push_back(between(-5, 45));
    z.push_back(between(60, 66));
  }
  const std::filesystem::path csv = temporary("points.csv");
  {
    std::ofstream out(csv);
    out.precision(17);
    out << "x,y,z\n";
    for (std::size_t k = 0; k < x.size(); ++k) out << x[k] << ',' << y[k] << ',' << z[k] << '\n';
  }
  Site site = surveyed_yard();
  site.ground.points = csv;
  const geom::Heightfield ours = ground::build(site, {}).surveyed;
  std::filesystem::remove(csv);

  const geom::Grid& g = ours.grid;
  GDALGridLinearOptions options{};
  options.nSizeOfStructure = sizeof options;
  options.dfRadius = 0.0;
  options.dfNoDataValue = -1.0;
  std::vector<double> theirs(g.size());
  // GDAL's grid has cells where ours has nodes: half a cell more on every side. Its rows run from
  // the first y to the second.
  const double h = g.cell / 2;
  ASSERT_EQ(GDALGridCreate(GGA_Linear, &options, static_cast<GUInt32>(x.size()), x.data(), y.data(),
                           z.data(), g.x0 - h, g.x_max() + h, g.y0 - h, g.y_max() + h,
                           static_cast<GUInt32>(g.nx), static_cast<GUInt32>(g.ny), GDT_Float64,
                           theirs.data(), nullptr, nullptr),
            CE_None);
  for (std::size_t k = 0; k < g.size(); ++k) ASSERT_NEAR(ours.z[k], theirs[k], 1e-6) << k;
}

TEST(Outside, RastersAreResampledAsGdalsWarperDoes) {
  GDALAllRegister();
  const std::filesystem::path tif = temporary("survey.tif");
  std::mt19937 random(6);  // the seed of the heights
  auto* from = GetGDALDriverManager()->GetDriverByName("GTiff")->Create(tif.c_str(), 60, 50, 1,
                                                                        GDT_Float64, nullptr);
  double transform[6] = {-5, 1, 0, 45, 0, -1};
  from->SetGeoTransform(transform);
  std::vector<double> heights(60 * 50);
  for (double& z : heights) z = 60.0 + 6.0 * random() / 4294967296.0;
  ASSERT_EQ(from->GetRasterBand(1)->RasterIO(GF_Write, 0, 0, 60, 50, heights.data(), 60, 50,
                                             GDT_Float64, 0, 0, nullptr),
            CE_None);
  GDALClose(from);
  from = GDALDataset::Open(tif.c_str(), GDAL_OF_RASTER);
  Site site = surveyed_yard();
  site.ground.raster = tif;
  const geom::Heightfield ours = ground::build(site, {}).surveyed;

  const geom::Grid& g = ours.grid;
  auto* to = GetGDALDriverManager()->GetDriverByName("MEM")->Create("", g.nx, g.ny, 1, GDT_Float64,
                                                                    nullptr);
  double wanted[6] = {g.x0 - g.cell / 2, g.cell, 0, g.y_max() + g.cell / 2, 0, -g.cell};
  to->SetGeoTransform(wanted);
  ASSERT_EQ(
      GDALReprojectImage(from, nullptr, to, nullptr, GRA_Bilinear, 0, 0, nullptr, nullptr, nullptr),
      CE_None);
  std::vector<double> theirs(g.size());
  ASSERT_EQ(to->GetRasterBand(1)->RasterIO(GF_Read, 0, 0, g.nx, g.ny, theirs.data(), g.nx, g.ny,
                                           GDT_Float64, 0, 0, nullptr),
            CE_None);
  for (int j = 0; j < g.ny; ++j) {
    for (int i = 0; i < g.nx; ++i) {
      ASSERT_NEAR(ours.at(i, j), theirs[g.index(i, g.ny - 1 - j)], 1e-9) << i << " " << j;
    }
  }
  GDALClose(to);
  GDALClose(from);
  std::filesystem::remove(tif);
}

}  // namespace
}  // namespace hummock

#include <gdal_priv.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <cmath>
#include <filesystem>
#include <vector>

#include "tests/support/yard.h"

namespace hummock {
namespace {

// A raster of 4000 × 4000 pixels of 0.1 m, its south-west corner at (-0.05, -0.05).
std::filesystem::path large_raster() {
  GDALAllRegister();
  std::filesystem::path path = std::filesystem::temp_directory_path() /
                               ("hummock_large_" + std::to_string(getpid()) + ".tif");
  GDALDataset* d = GetGDALDriverManager()->GetDriverByName("GTiff")->Create(
      path.c_str(), 4000, 4000, 1, GDT_Float32, nullptr);
  double transform[6] = {-0.05, 0.1, 0, 399.95, 0, -0.1};
  d->SetGeoTransform(transform);
  std::vector<float> row(4000);
  for (int r = 0; r < 4000; ++r) {
    for (int c = 0; c < 4000; ++c) {
      row[static_cast<std::size_t>(c)] =
          static_cast<float>(std::sin(c * 0.01) + std::cos(r * 0.02));
    }
    EXPECT_EQ(d->GetRasterBand(1)->RasterIO(GF_Write, 0, r, 4000, 1, row.data(), 4000, 1,
                                            GDT_Float32, 0, 0, nullptr),
              CE_None);
  }
  GDALClose(d);
  return path;
}

// The largest ground that is promised: a survey of 4000 × 4000 nodes with forms, fence and rays.
TEST(Memory, AGroundOfSixteenMillionNodesStaysUnderOneAndAHalfGibibytes) {
#ifdef HUMMOCK_SANITIZED
  GTEST_SKIP() << "the sanitizer's own memory would be counted";
#endif
  const std::filesystem::path raster = large_raster();
  Site site = test::yard(395.9, 395.9, 2.0, SheetKind::mesh, {2, 2});
  site.ground.level.reset();
  site.ground.raster = raster;
  test::add_mound(site, {200, 200}, 50, 5);
  GroundForm smooth;
  smooth.kind = FormKind::smooth;
  smooth.radius = 1.0;
  site.ground.forms.push_back(smooth);
  const Model model = test::built(site);
  std::filesystem::remove(raster);
  EXPECT_EQ(model.ground.grid.nx, 4000);
  EXPECT_EQ(model.ground.grid.ny, 4000);
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  const double gib = static_cast<double>(usage.ru_maxrss) / (1024.0 * 1024.0);
  RecordProperty("peak_gib", std::to_string(gib));
  EXPECT_LT(gib, 1.5);
}

}  // namespace
}  // namespace hummock

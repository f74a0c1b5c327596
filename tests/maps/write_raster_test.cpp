// Maps written through GDAL come back as they were.
#include <gdal_priv.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <memory>

#include "engine/maps/map_layers.h"

namespace hummock::maps {
namespace {

namespace fs = std::filesystem;

struct Closer {
  void operator()(GDALDataset* d) const { GDALClose(d); }
};

class WriteRaster : public testing::Test {
 protected:
  void SetUp() override {
    GDALAllRegister();
    folder_ = fs::path(testing::TempDir()) /
              (std::string("hummock_maps_") +
               testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::create_directories(folder_);
    model_.origin = {412000.0, 5731000.0};
    raster_ = geom::Raster(geom::Grid{-3.0, 2.0, 0.5, 4, 3});
    for (std::size_t k = 0; k < raster_.values.size(); ++k) {
      raster_.values[k] = 0.1F * static_cast<float>(k);
    }
    raster_.at(2, 0) = geom::Raster::kNone;
  }
  void TearDown() override { fs::remove_all(folder_); }
  std::unique_ptr<GDALDataset, Closer> open(const fs::path& p) {
    return std::unique_ptr<GDALDataset, Closer>(
        GDALDataset::FromHandle(GDALOpen(p.c_str(), GA_ReadOnly)));
  }
  std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder_), fs::directory_iterator{}));
  }
  fs::path folder_;
  Model model_;
  geom::Raster raster_;
};

void expect_same(GDALDataset& set, int band, const geom::Raster& raster, float tolerance) {
  for (int j = 0; j < raster.grid.ny; ++j) {
    for (int i = 0; i < raster.grid.nx; ++i) {
      float v = 0;
      ASSERT_EQ(set.GetRasterBand(band)->RasterIO(GF_Read, i, raster.grid.ny - 1 - j, 1, 1, &v, 1,
                                                  1, GDT_Float32, 0, 0, nullptr),
                CE_None);
      if (std::isnan(raster.at(i, j))) {
        EXPECT_EQ(v, -9999.0F);
      } else {
        EXPECT_NEAR(v, raster.at(i, j), tolerance);
      }
    }
  }
}

TEST_F(WriteRaster, as_geotiff_keeps_values_place_words_and_no_data) {
  geom::Raster second = raster_;
  second.at(0, 0) = 7.0F;
  const fs::path p = folder_ / "shade.tif";
  write_raster(p, model_,
               {{"2026-06-21 13:40 +01:00", &raster_}, {"2026-06-21 13:50 +01:00", &second}}, "h");
  const auto set = open(p);
  ASSERT_TRUE(set);
  EXPECT_EQ(set->GetRasterCount(), 2);
  EXPECT_STREQ(set->GetRasterBand(2)->GetDescription(), "2026-06-21 13:50 +01:00");
  EXPECT_STREQ(set->GetRasterBand(1)->GetUnitType(), "h");
  EXPECT_EQ(set->GetRasterBand(1)->GetNoDataValue(), -9999.0);
  double gt[6];
  ASSERT_EQ(set->GetGeoTransform(gt), CE_None);
  EXPECT_EQ(gt[0], 412000.0 - 3.0 - 0.25);   // half a cell out of the westernmost node
  EXPECT_EQ(gt[3], 5731000.0 + 3.0 + 0.25);  // and of the northernmost
  EXPECT_EQ(gt[1], 0.5);
  EXPECT_EQ(gt[5], -0.5);
  expect_same(*set, 1, raster_, 0.0F);
  expect_same(*set, 2, second, 0.0F);
  EXPECT_EQ(files(), 1U);  // nothing beside it
}

TEST_F(WriteRaster, as_ascii_grid_keeps_values_and_place) {
  const fs::path p = folder_ / "slope.asc";
  write_raster(p, model_, {{"slope", &raster_}}, "deg");
  const auto set = open(p);
  ASSERT_TRUE(set);
  double gt[6];
  ASSERT_EQ(set->GetGeoTransform(gt), CE_None);
  EXPECT_NEAR(gt[0], 412000.0 - 3.25, 1e-6);
  EXPECT_NEAR(gt[3], 5731000.0 + 3.25, 1e-6);
  expect_same(*set, 1, raster_, 1e-6F);
  EXPECT_EQ(files(), 1U);
}

TEST_F(WriteRaster, refuses_what_it_cannot_write_and_leaves_nothing) {
  const geom::Raster other(geom::Grid{0, 0, 1.0, 2, 2}, 0.0F);
  EXPECT_THROW(write_raster(folder_ / "a.xyz", model_, {{"", &raster_}}, ""), InputError);
  EXPECT_THROW(write_raster(folder_ / "a.asc", model_, {{"", &raster_}, {"", &raster_}}, ""),
               InputError);
  EXPECT_THROW(write_raster(folder_ / "a.tif", model_, {}, ""), InputError);
  EXPECT_THROW(write_raster(folder_ / "a.tif", model_, {{"", &raster_}, {"", &other}}, ""),
               InputError);
  EXPECT_THROW(write_raster(folder_ / "no" / "such" / "a.tif", model_, {{"", &raster_}}, ""),
               InputError);
  EXPECT_EQ(files(), 0U);
}

}  // namespace
}  // namespace hummock::maps

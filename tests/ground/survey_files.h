// Survey files of every sort, made for one test each, and what is said of the ground they give.
#pragma once

#include <gdal_priv.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <string>

#include "engine/ground/ground.h"
#include "tests/support/yard.h"

namespace hummock {

class Survey : public testing::Test {
 protected:
  void SetUp() override {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              (std::string("hummock_survey_") + info->name() + "_" + std::to_string(getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::filesystem::path file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
    return folder_ / name;
  }

  struct Tif {
    int cols = 60, rows = 50;
    double x0 = -5.0, y_top = 45.0, pixel = 1.0;
    int epsg = 0;
    double nodata = -9999.0;
    std::string unit;
    GDALDataType type = GDT_Float32;
  };
  // Heights z(x, y) at the pixels' centres.
  std::filesystem::path tif(const Tif& t, const std::function<double(double, double)>& z) const;

  // A 20 × 15 m yard at (10, 10) on that raster, cell 0.25 m.
  static Site on_raster(const std::filesystem::path& raster) {
    Site site = test::yard(20, 15, 2.0, SheetKind::mesh, {10, 10});
    site.ground.level.reset();
    site.ground.raster = raster;
    site.ground.cell = 0.25;
    return site;
  }
  static Site on_points(const std::filesystem::path& points) {
    Site site = on_raster({});
    site.ground.points = points;
    return site;
  }

  std::filesystem::path folder_;
};

// Builds, and returns what is said when it is refused.
std::string refusal(const Site& site);

#define EXPECT_SAYS(text, part) \
  EXPECT_NE((text).find(part), std::string::npos) << "it says: " << (text)

double plane(double x, double y);

// The corners of a square of 60 × 50 m at (-5, -5), and `count` points at random inside it.
std::string points_csv(int count, const std::function<double(double, double)>& z,
                       unsigned seed = 7);

}  // namespace hummock

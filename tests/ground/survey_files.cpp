#include "tests/ground/survey_files.h"

#include <ogr_spatialref.h>

#include <cstdio>
#include <fstream>
#include <random>

namespace hummock {

std::filesystem::path Survey::tif(const Tif& t,
                                  const std::function<double(double, double)>& z) const {
  std::filesystem::path path = folder_ / "survey.tif";
  GDALAllRegister();  // each test is a process of its own
  GDALDataset* d = GetGDALDriverManager()->GetDriverByName("GTiff")->Create(
      path.c_str(), t.cols, t.rows, 1, t.type, nullptr);
  double transform[6] = {t.x0, t.pixel, 0, t.y_top, 0, -t.pixel};
  d->SetGeoTransform(transform);
  if (t.epsg != 0) {
    OGRSpatialReference srs;
    srs.importFromEPSG(t.epsg);
    d->SetSpatialRef(&srs);
  }
  GDALRasterBand* band = d->GetRasterBand(1);
  band->SetNoDataValue(t.nodata);
  if (!t.unit.empty()) band->SetUnitType(t.unit.c_str());
  std::vector<double> row(static_cast<std::size_t>(t.cols));
  for (int r = 0; r < t.rows; ++r) {
    for (int c = 0; c < t.cols; ++c) {
      row[static_cast<std::size_t>(c)] =
          z(t.x0 + (c + 0.5) * t.pixel, t.y_top - (r + 0.5) * t.pixel);
    }
    EXPECT_EQ(band->RasterIO(GF_Write, 0, r, t.cols, 1, row.data(), t.cols, 1, GDT_Float64, 0, 0,
                             nullptr),
              CE_None);
  }
  GDALClose(d);
  return path;
}

std::string refusal(const Site& site) {
  try {
    ground::build(site, {});
  } catch (const InputError& e) {
    return e.what();
  }
  return "";
}

double plane(double x, double y) {
  return 62.0 + 0.11 * x - 0.07 * y;
}

std::string points_csv(int count, const std::function<double(double, double)>& z, unsigned seed) {
  std::mt19937 random(seed);
  std::string text = "x,y,z\n";
  const auto add = [&](double x, double y) {
    char line[128];
    std::snprintf(line, sizeof line, "%.17g,%.17g,%.17g\n", x, y, z(x, y));
    text += line;
  };
  for (double x : {-5.0, 55.0}) {
    for (double y : {-5.0, 45.0}) add(x, y);
  }
  for (int k = 0; k < count; ++k) {
    const double x = -5 + 60.0 * random() / 4294967296.0;
    add(x, -5 + 50.0 * random() / 4294967296.0);
  }
  return text;
}

}  // namespace hummock

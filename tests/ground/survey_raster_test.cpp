// Grounds of a raster: pixels, coordinates, units, holes, text grids.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

#include "tests/ground/survey_files.h"

namespace hummock {
namespace {

using geom::kDegree;

TEST_F(Survey, APlaneInARasterComesOutExactlyBetweenItsPixels) {
  Tif t;
  t.type = GDT_Float64;
  const auto built = ground::build(on_raster(tif(t, plane)), {});
  for (Vec2 p : {Vec2{10, 10}, Vec2{17.33, 12.9}, Vec2{31.2, 26.1}}) {
    EXPECT_NEAR(geom::height_at(built.surveyed, p), plane(p.x, p.y), 1e-9);
  }
  EXPECT_TRUE(built.notes.empty());
}

TEST_F(Survey, SamplesAreBilinearBetweenPixelCentres) {
  Tif t;
  const auto z = [](double x, double y) { return std::round(7 * std::sin(x) + 3 * std::cos(y)); };
  Site site = on_raster(tif(t, z));
  site.ground.cell = 0.3;
  const auto built = ground::build(site, {});
  const geom::Grid& g = built.surveyed.grid;
  for (int k = 0; k < 500; ++k) {
    const int i = (k * 37) % g.nx;
    const int j = (k * 61) % g.ny;
    const Vec2 p = g.node(i, j);
    const double cx = std::floor(p.x - 0.5) + 0.5;
    const double cy = std::floor(p.y - 0.5) + 0.5;
    const double u = p.x - cx;
    const double v = p.y - cy;
    const double expected = (1 - u) * (1 - v) * z(cx, cy) + u * (1 - v) * z(cx + 1, cy) +
                            (1 - u) * v * z(cx, cy + 1) + u * v * z(cx + 1, cy + 1);
    EXPECT_NEAR(built.surveyed.at(i, j), expected, 1e-4);
  }
}

TEST_F(Survey, MapCoordinatesOfMillionsOfMetresKeepTheirHeights) {
  Tif t;
  t.type = GDT_Float64;
  t.x0 = 3512300.0;
  t.y_top = 5403050.0;
  t.epsg = 31467;  // Gauss-Krüger, zone 3: its eastings are millions and true to scale there
  const auto z = [](double x, double y) { return plane(x - 3512300.0, y - 5403000.0); };
  Site site = test::yard(20, 15, 2.0, SheetKind::mesh, {3512315.5, 5403010.25});
  site.ground.level.reset();
  site.ground.raster = tif(t, z);
  site.ground.cell = 0.25;
  test::add_box(site, "box", {3512325.5, 5403015.25}, {1, 1, 1});
  const Model model = test::built(site);
  EXPECT_NEAR(model.origin.x, 3512315.0, 0.0);
  const Vec2 local{10.5, 5.25};
  EXPECT_NEAR(geom::height_at(model.ground, local), z(3512325.5, 5403015.25), 1e-8);
  EXPECT_EQ(model.to_site(local), (Vec2{3512325.5, 5403015.25}));
  EXPECT_NEAR(bounds(test::part(model, PartKind::object, "box").mesh).centre().x, 10.5, 1e-9);
}

TEST_F(Survey, DegreesAreRefusedWithTheCommandThatProjects) {
  Tif t;
  t.epsg = 4326;
  t.x0 = -0.7;
  t.y_top = 51.5;
  t.pixel = 0.01;
  const std::string said = refusal(on_raster(tif(t, plane)));
  EXPECT_SAYS(said, "in degrees (WGS 84)");
  EXPECT_SAYS(said, "gdalwarp -t_srs EPSG:32630");
  EXPECT_SAYS(said, "yard.site.toml:1: ground.raster");
}

TEST_F(Survey, FeetOnTheGroundAreRefused) {
  Tif t;
  t.epsg = 2263;  // New York Long Island, US survey feet
  EXPECT_SAYS(refusal(on_raster(tif(t, plane))), "US survey foot");
}

TEST_F(Survey, HeightsInFeetAreTurnedIntoMetresAndNoted) {
  Tif t;
  t.type = GDT_Float64;
  t.unit = "ft";
  const auto built = ground::build(on_raster(tif(t, plane)), {});
  EXPECT_NEAR(geom::height_at(built.surveyed, {15, 15}), plane(15, 15) * 0.3048, 1e-9);
  ASSERT_EQ(built.notes.size(), 1U);
  EXPECT_SAYS(built.notes[0], "from ft into metres");
}

TEST_F(Survey, NoDataInsideTheBoundaryIsRefusedWithItsPlace) {
  const auto hole = [](double x, double y) {
    return std::abs(x - 20.5) < 0.1 && std::abs(y - 15.5) < 0.1 ? -9999.0 : plane(x, y);
  };
  const std::string said = refusal(on_raster(tif({}, hole)));
  EXPECT_SAYS(said, "without a height at (19.75, 14.75)");
}

TEST_F(Survey, NotANumberInsideTheBoundaryIsRefused) {
  const auto hole = [](double x, double y) {
    return std::abs(x - 20.5) < 0.1 && std::abs(y - 15.5) < 0.1
               ? std::numeric_limits<double>::quiet_NaN()
               : plane(x, y);
  };
  EXPECT_SAYS(refusal(on_raster(tif({}, hole))), "without a height at (19.75, 14.75)");
}

TEST_F(Survey, HeightsNoGroundHasAreRefused) {
  Tif t;
  t.nodata = -1;
  const auto hole = [](double x, double y) {
    return std::abs(x - 20.5) < 0.1 && std::abs(y - 15.5) < 0.1 ? -32768.0 : plane(x, y);
  };
  EXPECT_SAYS(refusal(on_raster(tif(t, hole))), "-32768 m");
}

TEST_F(Survey, NoDataInTheMarginIsFilledAndNoted) {
  const auto hole = [](double x, double y) { return x < 9 ? -9999.0 : plane(x, y); };
  const auto built = ground::build(on_raster(tif({}, hole)), {});
  ASSERT_EQ(built.notes.size(), 1U);
  EXPECT_SAYS(built.notes[0], "outside the boundary");
  EXPECT_TRUE(std::isfinite(geom::height_at(built.surveyed, {8.1, 12})));
}

TEST_F(Survey, ARasterWithoutAnyHeightIsRefused) {
  EXPECT_SAYS(refusal(on_raster(tif({}, [](double, double) { return -9999.0; }))), "all no-data");
}

TEST_F(Survey, ARasterElsewhereIsRefusedWithBothExtents) {
  Tif t;
  t.x0 = 1000;
  const std::string said = refusal(on_raster(tif(t, plane)));
  EXPECT_SAYS(said, "covers x 1000.00 to 1060.00");
  EXPECT_SAYS(said, "x 8.00 to 32.00");
}

TEST_F(Survey, ARasterThatEndsInsideTheYardIsRefusedWithThePlace) {
  Tif t;
  t.cols = 30;  // x to 25; the yard reaches 30
  EXPECT_SAYS(refusal(on_raster(tif(t, plane))), "without a height at (25.");
}

TEST_F(Survey, MissingEmptyAndForeignFilesAreRefused) {
  EXPECT_SAYS(refusal(on_raster(folder_ / "none.tif")), "no file");
  EXPECT_SAYS(refusal(on_raster(file("empty.tif", ""))), "not a raster");
  EXPECT_SAYS(refusal(on_raster(file("letter.tif", "Dear all, the survey follows."))),
              "not a raster");
}

long peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss / 1024;
}

// A Surfer grid whose header says 9900 × 9900 pixels, and 100 of them: taken as said it is 0.8 GB.
TEST_F(Survey, AGridCutShortIsRefusedBeforeMemoryIsTakenForAllThatItPromises) {
  std::string bytes = "DSBB";
  const auto put = [&bytes](const auto& value) {
    bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
  };
  for (int k = 0; k < 2; ++k) put(std::int16_t{9900});
  for (const double v : {7.0, 33.0, 7.0, 28.0, 0.0, 1.0}) put(v);
  for (int k = 0; k < 100; ++k) put(1.0F);
  const long before = peak_megabytes();
  EXPECT_SAYS(refusal(on_raster(file("short.grd", bytes))), "cannot be read");
  EXPECT_LT(peak_megabytes() - before, 200);
}

TEST_F(Survey, ARasterKeptInOneHugeBlockIsRefused) {
  const std::filesystem::path path = folder_ / "block.tif";
  char sparse[] = "SPARSE_OK=TRUE";
  char strip[] = "BLOCKYSIZE=10100";
  char packed[] = "COMPRESS=DEFLATE";  // a plain strip is read in pieces
  char* options[] = {sparse, strip, packed, nullptr};
  GDALAllRegister();
  GDALDataset* made = GetGDALDriverManager()->GetDriverByName("GTiff")->Create(
      path.c_str(), 10100, 10100, 1, GDT_Float32, options);
  double t[6] = {0.0, 0.01, 0.0, 50.0, 0.0, -0.01};
  made->SetGeoTransform(t);
  GDALClose(made);
  EXPECT_SAYS(refusal(on_raster(path)), "blocks of 10100 × 10100 pixels");
}

std::string text_grid(const std::string& one_height, int rows = 50) {
  std::string text =
      "ncols 60\nnrows 50\nxllcorner -5\nyllcorner -5\ncellsize 1\nNODATA_value -9999\n";
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < 60; ++c) text += (r == 20 && c == 30 ? one_height : "62.5") + " ";
    text += "\n";
  }
  return text;
}

TEST_F(Survey, TextGridsAreRead) {
  const auto built = ground::build(on_raster(file("a.asc", text_grid("62.5"))), {});
  EXPECT_NEAR(geom::height_at(built.surveyed, {15, 15}), 62.5, 1e-9);
}

TEST_F(Survey, TextGridsWithAWordForAHeightAreRefusedWithTheLine) {
  const std::string said = refusal(on_raster(file("a.asc", text_grid("6l.5"))));
  EXPECT_SAYS(said, "a.asc:27: ");  // six header lines, then row 21
  EXPECT_SAYS(said, "found '6l.5'");
}

TEST_F(Survey, TextGridsThatAreCutShortOrTooLongAreRefused) {
  EXPECT_SAYS(refusal(on_raster(file("a.asc", text_grid("62.5", 49)))), "2940 of 3000 heights");
  EXPECT_SAYS(refusal(on_raster(file("a.asc", text_grid("62.5", 51)))), "more than 3000 heights");
}

TEST_F(Survey, TextGridsWithABrokenHeaderAreRefused) {
  EXPECT_SAYS(refusal(on_raster(file("a.asc", "ncols sixty\nnrows 50\n"))), "found 'sixty'");
  EXPECT_SAYS(refusal(on_raster(file("a.asc", "ncols 60\nxllcorner 0\n1 2 3\n"))), "nrows");
}

TEST_F(Survey, GridsOfXyzLinesAreReadOrRefusedWithTheLine) {
  const auto xyz = [](const std::string& one_height) {
    std::string text = "x y z\n";
    for (int r = 0; r < 50; ++r) {
      for (int c = 0; c < 60; ++c) {
        text += std::to_string(c - 4.5) + " " + std::to_string(44.5 - r) + " " +
                (r == 20 && c == 30 ? one_height : "62.5") + "\n";
      }
    }
    return text;
  };
  const auto built = ground::build(on_raster(file("a.xyz", xyz("62.5"))), {});
  EXPECT_NEAR(geom::height_at(built.surveyed, {15, 15}), 62.5, 1e-9);
  const std::string said = refusal(on_raster(file("b.xyz", xyz("6l.5"))));
  EXPECT_SAYS(said, "b.xyz:1232: found '6l.5'");  // a header, 20 rows of 60, then the 31st
}

TEST_F(Survey, RastersMayLieTurned) {
  Tif t;
  t.type = GDT_Float64;
  const std::filesystem::path path = tif(t, [](double, double) { return 0.0; });
  // Turned by 30°, pixels of 1 m, its first corner at (-8, 30); then filled with a plane.
  auto* d = GDALDataset::Open(path.c_str(), GDAL_OF_RASTER | GDAL_OF_UPDATE);
  const double c30 = std::cos(30 * kDegree);
  const double s30 = std::sin(30 * kDegree);
  double transform[6] = {-8, c30, s30, 30, s30, -c30};
  d->SetGeoTransform(transform);
  for (int r = 0; r < t.rows; ++r) {
    for (int c = 0; c < t.cols; ++c) {
      double z =
          plane(-8 + (c + 0.5) * c30 + (r + 0.5) * s30, 30 + (c + 0.5) * s30 - (r + 0.5) * c30);
      ASSERT_EQ(
          d->GetRasterBand(1)->RasterIO(GF_Write, c, r, 1, 1, &z, 1, 1, GDT_Float64, 0, 0, nullptr),
          CE_None);
    }
  }
  GDALClose(d);
  const auto built = ground::build(on_raster(path), {});
  for (Vec2 p : {Vec2{12, 12}, Vec2{17.33, 15.9}, Vec2{27.2, 22.1}}) {
    EXPECT_NEAR(geom::height_at(built.surveyed, p), plane(p.x, p.y), 1e-6);
  }
}

TEST_F(Survey, ScaleAndOffsetOfTheBandAreApplied) {
  Tif t;
  t.type = GDT_Int16;
  const std::filesystem::path path = tif(t, [](double x, double) { return std::floor(x); });
  auto* d = GDALDataset::Open(path.c_str(), GDAL_OF_RASTER | GDAL_OF_UPDATE);
  d->GetRasterBand(1)->SetScale(0.1);
  d->GetRasterBand(1)->SetOffset(60.0);
  GDALClose(d);
  const auto built = ground::build(on_raster(path), {});
  EXPECT_NEAR(geom::height_at(built.surveyed, {15.5, 15}), 61.5, 1e-9);
}

// Scale of the Mercator projection on the sphere: 1 / cos φ; web maps' Mercator has the sphere's
// formula on the ellipsoid, 1.55 along the meridian and 1.5537 along the parallel at 50 degrees.
TEST_F(Survey, AProjectionThatStretchesIsRefusedUntilAccepted) {
  Tif t;
  t.x0 = 1113190;
  t.y_top = 6446310;
  t.epsg = 3857;
  Site site = on_raster(tif(t, [](double, double) { return 200.0; }));
  for (Vec2& p : site.boundary.outline) p = p + Vec2{1113190, 6446260};
  EXPECT_SAYS(refusal(site), "projection-scale");
  EXPECT_SAYS(refusal(site), "0.64");  // 1 / 1.556
  site.accept = {"projection-scale"};
  EXPECT_EQ(refusal(site), "");
}

}  // namespace
}  // namespace hummock

// The raster metrics against GDAL's DEM processing, published examples, closed forms and a
// brute-force witness.
#include "geometry/terrain/terrain_metrics.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <random>

#include "geometry/terrain/terrain_sums.h"
#include "tests/support/dem_witness.h"
#include "tests/support/surfaces.h"

namespace hummock {
namespace {

using geom::Heightfield;
using geom::kDegree;
using geom::Raster;
using tests::surface;

Raster degrees(Raster r) {
  for (float& v : r.values) v = static_cast<float>(v / kDegree);
  return r;
}

// Cell by cell: 1e-4 relative, float rounding aside.
void expect_same(const Raster& ours, const Raster& theirs, const char* what) {
  ASSERT_EQ(ours.grid, theirs.grid);
  int compared = 0;
  for (std::size_t k = 0; k < ours.values.size(); ++k) {
    const float a = ours.values[k];
    const float b = theirs.values[k];
    if (std::isnan(b)) {
      EXPECT_TRUE(std::isnan(a)) << what << " at " << k << ": we have a value, GDAL none";
      continue;
    }
    ++compared;
    ASSERT_NEAR(a, b, 1e-4 * std::abs(b) + 2e-5) << what << " at " << k;
  }
  EXPECT_GT(compared, 4000) << what;
}

struct Stats {
  double min = 1e300, max = -1e300, mean = 0, sd = 0;
};
Stats stats(const Raster& r) {
  Stats s;
  double n = 0, sum = 0, square = 0;
  for (const float v : r.values) {
    if (std::isnan(v)) continue;
    s.min = std::min(s.min, static_cast<double>(v));
    s.max = std::max(s.max, static_cast<double>(v));
    n += 1;
    sum += v;
    square += static_cast<double>(v) * v;
  }
  s.mean = sum / n;
  s.sd = std::sqrt(square / n - s.mean * s.mean);
  return s;
}

// Column and row as GDAL counts them: row 0 northernmost.
float image_at(const Raster& r, int col, int row) {
  return r.at(col, r.grid.ny - 1 - row);
}

TEST(TerrainOfTheVolcano, EqualsGdalCellByCell) {
  const Heightfield ground = tests::volcano();
  const auto source = tests::as_dataset(ground);
  const auto gdal = [&](const char* mode, std::vector<std::string> options = {}) {
    return tests::as_raster(tests::dem_processing(source, mode, std::move(options)), ground.grid);
  };
  expect_same(degrees(geom::slope(ground)), gdal("slope"), "slope");
  expect_same(geom::ruggedness(ground), gdal("TRI", {"-alg", "Riley"}), "ruggedness");
  expect_same(geom::position_index(ground), gdal("TPI"), "position index");
  expect_same(geom::roughness(ground), gdal("roughness"), "roughness");
  expect_same(degrees(geom::aspect(ground)), gdal("aspect"), "aspect");
}

// Also where heights are not whole metres and the ground is rough: invented, 0.1 m cell.
TEST(TerrainOfARandomGround, EqualsGdalCellByCell) {
  std::mt19937 random(20260621);
  std::uniform_real_distribution<double> noise(-0.05, 0.05);
  const Heightfield ground = surface({0, 0}, {9, 7}, 0.1, [&](double x, double y) {
    return 2.0 + 0.4 * std::sin(1.3 * x) * std::cos(0.9 * y) + noise(random);
  });
  const auto source = tests::as_dataset(ground);
  const auto gdal = [&](const char* mode, std::vector<std::string> options = {}) {
    return tests::as_raster(tests::dem_processing(source, mode, std::move(options)), ground.grid);
  };
  expect_same(degrees(geom::slope(ground)), gdal("slope"), "slope");
  expect_same(geom::ruggedness(ground), gdal("TRI", {"-alg", "Riley"}), "ruggedness");
  expect_same(geom::position_index(ground), gdal("TPI"), "position index");
  expect_same(geom::roughness(ground), gdal("roughness"), "roughness");
}

struct Row {
  const char* name;
  Raster raster;
  double min, max, mean, sd, at_20_20, at_43_30;
};

// Figures printed by gdaldem 3.6.2 on the same file (interior cells; population sd).
TEST(TerrainOfTheVolcano, HasTheFiguresOfTheTable) {
  const Heightfield v = tests::volcano();
  const std::vector<Row> table{
      {"slope", degrees(geom::slope(v)), 0, 43.032470703125, 14.897465145077, 9.3254096100972,
       10.3150825500488, 14.2035970687866},
      {"aspect", degrees(geom::aspect(v)), 0, 358.83087158203, 153.74696534394, 103.77293634012,
       15.9453964233398, 32.9052429199219},
      {"ruggedness", geom::ruggedness(v), 0, 23.237899780273, 7.1390094992884, 4.426540878563,
       7.68114566802979, 6.78233003616333},
      {"position", geom::position_index(v), -4, 3.625, 0.021759720837488, 0.67042788459862, 1.875,
       -0.75},
      {"roughness", geom::roughness(v), 0, 25, 7.1020937188435, 4.6328776088275, 6, 7}};
  for (const Row& row : table) {
    const Stats s = stats(row.raster);
    EXPECT_NEAR(s.min, row.min, 1e-5) << row.name;
    EXPECT_NEAR(s.max, row.max, 1e-6 * row.max) << row.name;
    EXPECT_NEAR(s.mean, row.mean, 1e-5 * row.mean) << row.name;
    EXPECT_NEAR(s.sd, row.sd, 1e-5 * row.sd) << row.name;
    EXPECT_NEAR(image_at(row.raster, 20, 20), row.at_20_20, 1e-5) << row.name;
    EXPECT_NEAR(image_at(row.raster, 43, 30), row.at_43_30, 1e-5) << row.name;
  }
  // Mean surface ratio of the interior cells: computed with a separate script for the check table.
  EXPECT_NEAR(stats(geom::surface_ratio(v)).mean, 1.0565409797752503, 1e-6);
}

// Jenness 2004, Wildl. Soc. Bull. 32:829–839, worked example: 10 280.48 m², ratio 1.03, with edge
// lengths rounded in the paper (exact arithmetic gives 10 280.7713).
TEST(SurfaceRatio, GivesTheWorkedExampleOfJenness) {
  Heightfield ground;
  ground.grid = {0, 0, 100.0, 3, 3};
  ground.z = {175, 160, 122, 183, 165, 145, 190, 170, 155};
  const double area = geom::surface_ratio(ground).at(1, 1) * 1e4;
  EXPECT_NEAR(area, 10280.48, 1e-4 * 10280.48);
  EXPECT_NEAR(area, 10280.7713, 1e-3);
}

TEST(SurfaceRatio, IsOneOnTheLevelAndRootTwoAt45Degrees) {
  const auto level = surface({0, 0}, {4, 4}, 1.0, [](double, double) { return 3.0; });
  const auto steep = surface({0, 0}, {4, 4}, 1.0, [](double x, double) { return x; });
  EXPECT_FLOAT_EQ(geom::surface_ratio(level).at(2, 2), 1.0F);
  EXPECT_FLOAT_EQ(geom::surface_ratio(steep).at(2, 2), std::sqrt(2.0F));
}

TEST(TerrainOfATiltedPlane, HasItsClosedForms) {
  const double c = 0.25;
  const double gx = 0.3;
  const double gy = -0.7;
  const auto ground =
      surface({-2, 1}, {3, 5}, c, [&](double x, double y) { return 12.0 + gx * x + gy * y; });
  const double steep = std::hypot(gx, gy);
  double square = 0.0;
  for (int i = -1; i <= 1; ++i)
    for (int j = -1; j <= 1; ++j) square += std::pow(c * (gx * i + gy * j), 2);
  EXPECT_NEAR(geom::slope(ground).at(5, 5), std::atan(steep), geom::kAngleError);
  // It falls towards −x, +y: between north and west.
  EXPECT_NEAR(geom::aspect(ground).at(5, 5), std::atan2(-gx, -gy) + 2 * geom::kPi,
              geom::kAngleError);
  EXPECT_NEAR(geom::ruggedness(ground).at(5, 5), std::sqrt(square), 1e-7);
  EXPECT_NEAR(geom::position_index(ground).at(5, 5), 0.0, 1e-13);
  EXPECT_NEAR(geom::roughness(ground).at(5, 5), 2 * c * (gx - gy), 1e-7);
  EXPECT_NEAR(geom::vector_ruggedness(ground).at(5, 5), 0.0, 1e-15);
}

TEST(TerrainWindows, LeaveOutNodesWhoseWindowLeavesTheGrid) {
  const auto ground = surface({0, 0}, {6, 6}, 1.0, [](double x, double y) { return x * y; });
  const Raster slope = geom::slope(ground);
  const Raster vrm = geom::vector_ruggedness(ground);
  for (int j = 0; j < 7; ++j)
    for (int i = 0; i < 7; ++i) {
      const int ring = std::min({i, j, 6 - i, 6 - j});
      EXPECT_EQ(std::isnan(slope.at(i, j)), ring < 1);
      EXPECT_EQ(std::isnan(vrm.at(i, j)), ring < 2);
    }
  EXPECT_TRUE(std::isnan(geom::slope(geom::level_ground({{0, 0}, {1, 1}}, 1.0, 0)).at(1, 1)));
}

TEST(Aspect, TurnsWithTheCompassAndIsNoneOnTheLevel) {
  for (int k = 0; k < 72; ++k) {
    const double bearing = 5.0 * k * kDegree;
    const auto ground = surface({0, 0}, {4, 4}, 1.0, [&](double x, double y) {
      return -0.2 * (x * std::sin(bearing) + y * std::cos(bearing));
    });
    const double a = geom::aspect(ground).at(2, 2);
    EXPECT_GE(a, 0.0);
    EXPECT_LT(a, 2 * geom::kPi);
    EXPECT_NEAR(std::remainder(a - bearing, 2 * geom::kPi), 0.0, geom::kAngleError);
  }
  EXPECT_TRUE(std::isnan(geom::aspect(geom::level_ground({{0, 0}, {4, 4}}, 1, 7)).at(2, 2)));
}

// Slope against the library's own atan over many magnitudes: the bound the header states.
TEST(Slope, KeepsItsStatedErrorOverAllSteepnesses) {
  double worst = 0.0;
  for (double g = 1e-6; g < 1e6; g *= 1.01) {
    const auto ground = surface({0, 0}, {2, 2}, 1.0, [&](double x, double) { return g * x; });
    worst = std::max(worst, std::abs(geom::slope(ground).at(1, 1) - std::atan(g)));
  }
  std::printf("worst slope error %.3g rad of %.3g allowed\n", worst, geom::kAngleError);
  EXPECT_LE(worst, geom::kAngleError);
}

// Second order in the cell on a smooth ground: the error falls fourfold as the cell halves.
TEST(Slope, ConvergesToTheTrueSlopeAtSecondOrder) {
  const auto f = [](double x, double y) { return 0.5 * std::sin(x) * std::cos(0.7 * y); };
  double last = 0.0;
  for (const double c : {0.2, 0.1, 0.05}) {
    const auto ground = surface({0, 0}, {6, 6}, c, f);
    const Raster slope = geom::slope(ground);
    double worst = 0.0;
    for (int j = 1; j + 1 < ground.grid.ny; ++j)
      for (int i = 1; i + 1 < ground.grid.nx; ++i) {
        const geom::Vec2 p = ground.grid.node(i, j);
        const double truth = std::atan(0.5 * std::hypot(std::cos(p.x) * std::cos(0.7 * p.y),
                                                        0.7 * std::sin(p.x) * std::sin(0.7 * p.y)));
        worst = std::max(worst, std::abs(slope.at(i, j) - truth));
      }
    if (last > 0.0) {
      std::printf("cell %.3f: worst slope error %.3g, order %.2f\n", c, worst,
                  std::log2(last / worst));
      EXPECT_NEAR(std::log2(last / worst), 2.0, 0.15);
    }
    last = worst;
  }
}

// Sappington et al. 2007 written out from slope and aspect as the paper does.
double vrm_from_angles(const Raster& slope, const Raster& aspect, int i, int j) {
  double x = 0, y = 0, z = 0;
  for (int dj = -1; dj <= 1; ++dj)
    for (int di = -1; di <= 1; ++di) {
      const double s = slope.at(i + di, j + dj);
      const double a = std::isnan(aspect.at(i + di, j + dj)) ? 0.0 : aspect.at(i + di, j + dj);
      x += std::sin(s) * std::sin(a);
      y += std::sin(s) * std::cos(a);
      z += std::cos(s);
    }
  return 1.0 - std::sqrt(x * x + y * y + z * z) / 9.0;
}

TEST(VectorRuggedness, EqualsThePapersFormFromSlopeAndAspect) {
  const Heightfield v = tests::volcano();
  const Raster slope = geom::slope(v);
  const Raster aspect = geom::aspect(v);
  const Raster vrm = geom::vector_ruggedness(v);
  for (int j = 2; j + 2 < v.grid.ny; ++j)
    for (int i = 2; i + 2 < v.grid.nx; ++i)
      ASSERT_NEAR(vrm.at(i, j), vrm_from_angles(slope, aspect, i, j), 1e-6);
}

// Sums in long double as witness, at heights up to 4000 m: the bound the header states.
TEST(TerrainWindows, KeepTheirStatedErrorAtGreatHeights) {
  constexpr unsigned kSeed = 11;
  SCOPED_TRACE(testing::Message() << "seed " << kSeed);
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> noise(-1.0, 1.0);
  for (const double height : {1.0, 100.0, 4000.0}) {
    Heightfield ground;
    ground.grid = {0, 0, 0.1, 40, 40};
    ground.z.resize(ground.grid.size());
    for (double& v : ground.z) v = height + 0.01 * noise(random);
    const Raster tri = geom::ruggedness(ground);
    const Raster tpi = geom::position_index(ground);
    const double rounding = std::ldexp(1.0, -24);
    for (int j = 1; j < 39; ++j)
      for (int i = 1; i < 39; ++i) {
        long double square = 0, sum = 0;
        for (int dj = -1; dj <= 1; ++dj)
          for (int di = -1; di <= 1; ++di) {
            if (di == 0 && dj == 0) continue;
            const long double d = static_cast<long double>(ground.at(i + di, j + dj)) -
                                  static_cast<long double>(ground.at(i, j));
            square += d * d;
            sum += d;
          }
        const double true_tri = static_cast<double>(std::sqrt(square));
        const double true_tpi = static_cast<double>(-sum / 8);
        const double slack = geom::kHeightError * (height + 0.01);
        ASSERT_NEAR(tri.at(i, j), true_tri, rounding * true_tri + slack);
        ASSERT_NEAR(tpi.at(i, j), true_tpi, rounding * std::abs(true_tpi) + slack);
      }
  }
}

// The fused pass against the rasters, over a random choice of nodes, on more rows than a tile.
TEST(TerrainSums, EqualTheSumsOfTheRasters) {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> noise(0.0, 0.3);
  const auto ground =
      surface({0, 0}, {9, 20}, 0.1, [&](double x, double) { return 0.1 * x + noise(random); });
  std::vector<std::uint8_t> chosen(ground.grid.size());
  for (auto& c : chosen) c = random() % 3 != 0;
  const geom::TerrainSums sums = geom::terrain_sums(ground, chosen);
  const Raster slope = geom::slope(ground);
  const Raster tri = geom::ruggedness(ground);
  const Raster tpi = geom::position_index(ground);
  const Raster rough = geom::roughness(ground);
  const Raster vrm = geom::vector_ruggedness(ground);
  geom::TerrainSums s;
  for (std::size_t k = 0; k < chosen.size(); ++k) {
    if (chosen[k] == 0 || std::isnan(slope.values[k])) continue;
    ++s.nodes;
    s.slope_sum += slope.values[k];
    s.slope_max = std::max(s.slope_max, static_cast<double>(slope.values[k]));
    s.ruggedness_sum += tri.values[k];
    s.position_sum += tpi.values[k];
    s.position_square_sum += static_cast<double>(tpi.values[k]) * tpi.values[k];
    s.roughness_sum += rough.values[k];
    s.flat += slope.values[k] < 5 * kDegree;
    if (std::isnan(vrm.values[k])) continue;
    ++s.vector_nodes;
    s.vector_ruggedness_sum += vrm.values[k];
  }
  EXPECT_EQ(sums.nodes, s.nodes);
  EXPECT_EQ(sums.vector_nodes, s.vector_nodes);
  EXPECT_EQ(sums.flat, s.flat);
  EXPECT_EQ(sums.slope_max, s.slope_max);
  EXPECT_NEAR(sums.slope_sum, s.slope_sum, 1e-6 * s.slope_sum);
  EXPECT_NEAR(sums.ruggedness_sum, s.ruggedness_sum, 1e-6 * s.ruggedness_sum);
  EXPECT_NEAR(sums.position_sum, s.position_sum, 1e-6 * static_cast<double>(s.nodes));
  EXPECT_NEAR(sums.position_square_sum, s.position_square_sum, 1e-6 * s.position_square_sum);
  EXPECT_NEAR(sums.roughness_sum, s.roughness_sum, 1e-6 * s.roughness_sum);
  EXPECT_NEAR(sums.vector_ruggedness_sum, s.vector_ruggedness_sum, 1e-5 * s.vector_ruggedness_sum);
}

}  // namespace
}  // namespace hummock

#include "geometry/terrain/terrain_sums.h"

#include <tbb/parallel_for.h>

#include <cassert>

#include "geometry/terrain/terrain_rows.h"

// Built with -O3 and without errno from sqrt, like terrain_metrics.cpp.
namespace hummock::geom {
namespace {

using rows::Three;

constexpr int kTileRows = 64;

struct GradientRow {
  std::vector<double> gx, gy, nx, ny, nz;
  explicit GradientRow(int n) : gx(n), gy(n), nx(n), ny(n), nz(n) {}
};

struct MetricRow {
  std::vector<float> slope;
  std::vector<double> ruggedness, position, roughness, vector_ruggedness;
  explicit MetricRow(int n)
      : slope(n), ruggedness(n), position(n), roughness(n), vector_ruggedness(n) {}
};

Three rows_about(const Heightfield& ground, int j) {
  const double* z = ground.z.data();
  return {z + ground.grid.index(0, j - 1), z + ground.grid.index(0, j),
          z + ground.grid.index(0, j + 1)};
}

void fill_gradients(const Heightfield& ground, int j, GradientRow& out) {
  if (j < 1 || j + 1 >= ground.grid.ny) return;
  const Three r = rows_about(ground, j);
  const double scale = 1.0 / (8.0 * ground.grid.cell);
  double* __restrict gx = out.gx.data();
  double* __restrict gy = out.gy.data();
  double* __restrict nx = out.nx.data();
  double* __restrict ny = out.ny.data();
  double* __restrict nz = out.nz.data();
  for (int i = 1; i < ground.grid.nx - 1; ++i) {
    const double x = rows::gx8(r, i) * scale;
    const double y = rows::gy8(r, i) * scale;
    const double up = 1.0 / std::sqrt(1.0 + x * x + y * y);
    gx[i] = x;
    gy[i] = y;
    nx[i] = -x * up;
    ny[i] = -y * up;
    nz[i] = up;
  }
}

void fill_windows(const Heightfield& ground, int j, const GradientRow& g, MetricRow& out) {
  const Three r = rows_about(ground, j);
  const int n = ground.grid.nx;
  for (int i = 1; i < n - 1; ++i)
    out.slope[i] =
        rows::atan_positive(static_cast<float>(std::sqrt(g.gx[i] * g.gx[i] + g.gy[i] * g.gy[i])));
  for (int i = 1; i < n - 1; ++i) out.ruggedness[i] = rows::ruggedness(r, i);
  for (int i = 1; i < n - 1; ++i) out.position[i] = rows::position(r, i);
  for (int i = 1; i < n - 1; ++i) out.roughness[i] = rows::roughness(r, i);
}

double nine(const std::vector<double>& a, const std::vector<double>& b,
            const std::vector<double>& c, int i) {
  return (a[i - 1] + a[i] + a[i + 1]) + (b[i - 1] + b[i] + b[i + 1]) + (c[i - 1] + c[i] + c[i + 1]);
}

void fill_vector_ruggedness(int n, const GradientRow& a, const GradientRow& b, const GradientRow& c,
                            MetricRow& out) {
  for (int i = 2; i < n - 2; ++i) {
    const double x = nine(a.nx, b.nx, c.nx, i);
    const double y = nine(a.ny, b.ny, c.ny, i);
    const double z = nine(a.nz, b.nz, c.nz, i);
    out.vector_ruggedness[i] = 1.0 - std::sqrt(x * x + y * y + z * z) / 9.0;
  }
}

// Compass class of the fall (−gx, −gy): 0 = N, clockwise; borders at odd multiples of 22.5°.
int aspect_class(double gx, double gy) {
  constexpr double kTan = 0.41421356237309503;  // tan 22.5°
  const double east = -gx;
  const double north = -gy;
  const double ae = std::abs(east);
  const double an = std::abs(north);
  if (ae < kTan * an) return north > 0 ? 0 : 4;
  if (an < kTan * ae) return east > 0 ? 2 : 6;
  if (north > 0) return east > 0 ? 1 : 7;
  return east > 0 ? 3 : 5;
}

struct Squares {  // tan² of the limits: compared with the squared gradient
  double flat, no_aspect;
};

void add_row(const Heightfield& ground, const std::uint8_t* chosen, const GradientRow& g,
             const MetricRow& m, const Squares& limits, bool has_vector, TerrainSums& sums) {
  const int n = ground.grid.nx;
  for (int i = 1; i < n - 1; ++i) {
    if (chosen[i] == 0) continue;
    const double g2 = g.gx[i] * g.gx[i] + g.gy[i] * g.gy[i];
    ++sums.nodes;
    sums.slope_sum += m.slope[i];
    sums.slope_max = std::max(sums.slope_max, static_cast<double>(m.slope[i]));
    sums.ruggedness_sum += m.ruggedness[i];
    sums.position_sum += m.position[i];
    sums.position_square_sum += m.position[i] * m.position[i];
    sums.roughness_sum += m.roughness[i];
    if (g2 < limits.flat) ++sums.flat;
    if (g2 >= limits.no_aspect && g2 > 0.0)
      ++sums.aspects[static_cast<std::size_t>(aspect_class(g.gx[i], g.gy[i]))];
    if (has_vector && i > 1 && i < n - 2) {
      ++sums.vector_nodes;
      sums.vector_ruggedness_sum += m.vector_ruggedness[i];
    }
  }
}

TerrainSums sum_tile(const Heightfield& ground, const std::vector<std::uint8_t>& chosen,
                     const Squares& limits, int first, int last) {
  const int n = ground.grid.nx;
  const int ny = ground.grid.ny;
  TerrainSums sums;
  GradientRow a(n), b(n), c(n);
  MetricRow m(n);
  fill_gradients(ground, first - 1, a);
  fill_gradients(ground, first, b);
  for (int j = first; j < last; ++j) {
    fill_gradients(ground, j + 1, c);
    fill_windows(ground, j, b, m);
    const bool has_vector = j >= 2 && j + 2 < ny;
    if (has_vector) fill_vector_ruggedness(n, a, b, c, m);
    add_row(ground, chosen.data() + ground.grid.index(0, j), b, m, limits, has_vector, sums);
    std::swap(a, b);
    std::swap(b, c);
  }
  return sums;
}

void add(TerrainSums& to, const TerrainSums& s) {
  to.nodes += s.nodes;
  to.slope_sum += s.slope_sum;
  to.slope_max = std::max(to.slope_max, s.slope_max);
  to.ruggedness_sum += s.ruggedness_sum;
  to.position_sum += s.position_sum;
  to.position_square_sum += s.position_square_sum;
  to.roughness_sum += s.roughness_sum;
  to.flat += s.flat;
  to.vector_nodes += s.vector_nodes;
  to.vector_ruggedness_sum += s.vector_ruggedness_sum;
  for (std::size_t k = 0; k < to.aspects.size(); ++k) to.aspects[k] += s.aspects[k];
}

double tangent_square(double angle) {
  const double t = std::tan(angle);
  return t * t;
}

}  // namespace

TerrainSums terrain_sums(const Heightfield& ground, const std::vector<std::uint8_t>& chosen,
                         const TerrainLimits& limits) {
  assert(chosen.size() == ground.grid.size());
  TerrainSums total;
  const int ny = ground.grid.ny;
  if (ny < 3 || ground.grid.nx < 3) return total;
  const Squares squares{tangent_square(limits.flat), tangent_square(limits.no_aspect)};
  const int tiles = (ny - 2 + kTileRows - 1) / kTileRows;
  std::vector<TerrainSums> parts(static_cast<std::size_t>(tiles));
  tbb::parallel_for(0, tiles, [&](int k) {
    const int first = 1 + k * kTileRows;
    parts[static_cast<std::size_t>(k)] =
        sum_tile(ground, chosen, squares, first, std::min(first + kTileRows, ny - 1));
  });
  for (const TerrainSums& part : parts) add(total, part);
  return total;
}

}  // namespace hummock::geom

#include "engine/relief/relief.h"

#include <tbb/parallel_invoke.h>

#include <cmath>
#include <limits>

#include "geometry/plan/polygon_cells.h"
#include "geometry/terrain/prominence.h"
#include "geometry/terrain/surface_moments.h"
#include "geometry/terrain/terrain_sums.h"

namespace hummock::relief {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// Below this share of the ground's height a residual is rounding, not shape.
constexpr double kRounding = 1e-12;

void set_heights(Result& out, const geom::SurfaceMoments& m) {
  out.sa_m = m.mean_abs;
  out.sq_m = std::sqrt(std::max(0.0, m.mean_square));
  out.sz_m = m.highest - m.lowest;
  const double scale = std::max({1.0, std::abs(m.z_max), std::abs(m.z_min)});
  const bool shaped = out.sq_m > kRounding * scale;
  out.ssk = shaped ? m.mean_cube / (out.sq_m * m.mean_square) : kNone;
  out.sku = shaped ? m.mean_fourth / (m.mean_square * m.mean_square) : kNone;
  out.sdq = std::sqrt(std::max(0.0, m.mean_gradient_square));
  out.sdr = m.mean_excess_area;
  out.range_m = m.z_max - m.z_min;
}

void set_plane(Result& out, const geom::Plane& plane) {
  const double steep = std::hypot(plane.gx, plane.gy);
  out.plane_slope_deg = std::atan(steep) / geom::kDegree;
  const double bearing = std::atan2(-plane.gx, -plane.gy) / geom::kDegree;
  out.plane_downhill_deg = steep > kRounding ? std::fmod(bearing + 360.0, 360.0) : kNone;
}

// Shannon's evenness: −Σ p ln p / ln 8; 0 when all fall one way or none has an aspect.
double entropy(const std::array<std::size_t, 8>& counts) {
  double total = 0.0;
  for (const std::size_t c : counts) total += static_cast<double>(c);
  double sum = 0.0;
  for (const std::size_t c : counts) {
    if (c == 0) continue;
    const double p = static_cast<double>(c) / total;
    sum -= p * std::log(p);
  }
  return sum / std::log(8.0);
}

void set_windows(Result& out, const geom::TerrainSums& s) {
  const double n = s.nodes > 0 ? static_cast<double>(s.nodes) : kNone;
  out.mean_slope_deg = s.slope_sum / n / geom::kDegree;
  out.max_slope_deg = s.nodes > 0 ? s.slope_max / geom::kDegree : kNone;
  out.tri_mean_m = s.ruggedness_sum / n;
  const double mean = s.position_sum / n;
  const double variance = s.position_square_sum / n - mean * mean;
  out.tpi_sd_m = s.nodes > 0 ? std::sqrt(std::max(0.0, variance)) : kNone;
  out.roughness_mean_m = s.roughness_sum / n;
  out.vrm_mean =
      s.vector_nodes > 0 ? s.vector_ruggedness_sum / static_cast<double>(s.vector_nodes) : kNone;
  out.flat_share = static_cast<double>(s.flat) / n;
  out.aspect_entropy = entropy(s.aspects);
}

std::vector<Feature> features(const geom::Heightfield& ground,
                              const std::vector<std::uint8_t>& inside, double least,
                              geom::Way way) {
  std::vector<Feature> out;
  for (const geom::Rise& r : geom::rises(ground.grid, ground.z, inside, least, way))
    out.push_back({ground.grid.node(r.i, r.j), ground.at(r.i, r.j), r.prominence});
  return out;
}

}  // namespace

Result analyse(const Model& model, const Settings& settings) {
  const geom::Heightfield& ground = model.ground;
  const std::vector<std::uint8_t> inside = geom::nodes_inside(ground.grid, model.outline);
  geom::SurfaceMoments moments;
  geom::TerrainSums windows;
  Result out;
  // Side by side: each reads the ground alone.
  tbb::parallel_invoke(
      [&] { out.rises = features(ground, inside, settings.prominence, geom::Way::up); },
      [&] { out.hollows = features(ground, inside, settings.prominence, geom::Way::down); },
      [&] { moments = geom::surface_moments(ground, model.outline); },
      [&] { windows = geom::terrain_sums(ground, inside); });
  set_heights(out, moments);
  set_plane(out, moments.plane);
  set_windows(out, windows);
  return out;
}

}  // namespace hummock::relief

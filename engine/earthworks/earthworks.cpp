#include "engine/earthworks/earthworks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "geometry/mesh/prism_volume.h"

namespace hummock::earthworks {

geom::Heightfield bare_ground(const Model& model) {
  geom::Heightfield soil = model.ground;
  if (model.snow != 0.0)
    for (double& z : soil.z) z -= model.snow;
  return soil;
}

Repose repose_of(Soil soil) {
  const std::string table = "OSHA 29 CFR 1926 Subpart P App. B Table B-1, ";
  switch (soil) {
    case Soil::clay:
      return {std::atan2(1.0, 1.0), table + "type B (clay that was dug is never type A) 1:1"};
    case Soil::loam:
      return {std::atan2(1.0, 1.0), table + "type B (loam) 1:1"};
    case Soil::sand:
      return {std::atan2(1.0, 1.5), table + "type C (sand) 1 1/2:1"};
    case Soil::unknown:
      break;
  }
  return {std::atan2(1.0, 1.5), table + "type C (soil not given, taken as sand) 1 1/2:1"};
}

namespace {

void note_change(const Model& model, const geom::Heightfield& soil, Result& r) {
  r.change = geom::Raster(soil.grid);
  for (std::size_t n = 0; n < soil.z.size(); ++n) {
    const double d = soil.z[n] - model.surveyed.z[n];
    r.change.values[n] = static_cast<float>(d);
    r.highest_fill_m = std::max(r.highest_fill_m, d);
    r.deepest_cut_m = std::max(r.deepest_cut_m, -d);
  }
}

// Slope as its tangent squared, of the triangle whose sides along x and y rise by dx and dy.
double steepness(double dx, double dy, double cell) {
  return (dx * dx + dy * dy) / (cell * cell);
}

void mark(geom::Raster& raster, const std::array<std::size_t, 3>& corners, double degrees) {
  for (const std::size_t n : corners) {
    float& v = raster.values[n];
    if (!(v >= degrees)) v = static_cast<float>(degrees);
  }
}

void find_steep(const Model& model, double limit, Result& r) {
  const geom::Heightfield& h = model.ground;
  const geom::Grid& g = h.grid;
  r.too_steep = geom::Raster(g);
  // A slope drawn at the limit itself must pass: half a thousandth of a degree of rounding.
  const double tangent = std::tan(limit + 1e-5);
  double worst = 0.0;
  int count = 0;
  for (int j = 0; j + 1 < g.ny; ++j) {
    for (int i = 0; i + 1 < g.nx; ++i) {
      const std::size_t a = g.index(i, j), b = g.index(i + 1, j);
      const std::size_t c = g.index(i + 1, j + 1), d = g.index(i, j + 1);
      const auto look = [&](const std::array<std::size_t, 3>& t, double dx, double dy, double off) {
        const double s = steepness(dx, dy, g.cell);
        if (s <= worst && s <= tangent * tangent) return;
        const Vec2 p = g.node(i, j) + Vec2{off, off};
        if (!geom::contains(model.outline, p)) return;
        worst = std::max(worst, s);
        if (s <= tangent * tangent) return;
        ++count;
        mark(r.too_steep, t, std::atan(std::sqrt(s)) / geom::kDegree);
      };
      look({a, b, d}, h.z[b] - h.z[a], h.z[d] - h.z[a], g.cell / 3.0);
      look({c, d, b}, h.z[c] - h.z[d], h.z[c] - h.z[b], g.cell * 2.0 / 3.0);
    }
  }
  r.too_steep_area_m2 = count * 0.5 * g.cell * g.cell;
  r.steepest_deg = std::atan(std::sqrt(worst)) / geom::kDegree;
}

}  // namespace

Result analyse(const Model& model) {
  Result r;
  const geom::Heightfield soil = bare_ground(model);
  const geom::PrismSums sums = geom::prism_sums(soil, model.surveyed);
  r.fill_m3 = sums.above_m3;
  r.cut_m3 = sums.below_m3;
  r.fill_area_m2 = sums.above_area_m2;
  r.cut_area_m2 = sums.below_area_m2;
  r.balance_m3 = r.fill_m3 - r.cut_m3;
  note_change(model, soil, r);
  const Repose repose = repose_of(model.site.ground.soil);
  r.repose_deg = repose.angle / geom::kDegree;
  r.repose_source = repose.source;
  find_steep(model, repose.angle, r);
  return r;
}

}  // namespace hummock::earthworks

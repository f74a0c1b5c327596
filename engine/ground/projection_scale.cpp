#include "engine/ground/projection_scale.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "engine/raster/gdal_library.h"

namespace hummock::ground {
namespace {

constexpr double kApart = 100.0;  // m

struct DestroySystem {
  void operator()(void* s) const { gdal().OSRDestroySpatialReference(s); }
};
struct DestroyTurn {
  void operator()(void* t) const { gdal().OCTDestroyCoordinateTransformation(t); }
};
using System = std::unique_ptr<void, DestroySystem>;

// From one system into the other, x before y whatever the systems say. Nothing where GDAL has none.
class Turn {
 public:
  Turn(const System& from, const System& to) {
    if (!from || !to) return;
    gdal().OSRSetAxisMappingStrategy(from.get(), OAMS_TRADITIONAL_GIS_ORDER);
    gdal().OSRSetAxisMappingStrategy(to.get(), OAMS_TRADITIONAL_GIS_ORDER);
    turn_.reset(gdal().OCTNewCoordinateTransformation(from.get(), to.get()));
  }
  // In place; false when one of the `n` points has no place in the other system.
  bool apply(int n, double* x, double* y) const {
    return turn_ && gdal().OCTTransform(turn_.get(), n, x, y, nullptr) != 0;
  }

 private:
  std::unique_ptr<void, DestroyTurn> turn_;
};

// Length of a step in degrees, by the radii of curvature in the meridian and the prime vertical.
double on_ellipsoid(const System& system, double latitude, double east, double north) {
  const double a = gdal().OSRGetSemiMajor(system.get(), nullptr);
  const double inverse = gdal().OSRGetInvFlattening(system.get(), nullptr);
  const double f = inverse > 0.0 ? 1.0 / inverse : 0.0;
  const double e2 = f * (2.0 - f);
  const double s = std::sin(latitude * geom::kDegree), w = std::sqrt(1.0 - e2 * s * s);
  const double meridian = a * (1.0 - e2) / (w * w * w), vertical = a / w;
  return std::hypot(meridian * north * geom::kDegree,
                    vertical * std::cos(latitude * geom::kDegree) * east * geom::kDegree);
}

}  // namespace

std::optional<double> projection_scale(OGRSpatialReferenceH system, geom::Vec2 at) {
  const System from(gdal().OSRClone(system)), to(gdal().OSRCloneGeogCS(system));
  const Turn turn(from, to);
  std::array<double, 3> x{at.x, at.x + kApart, at.x}, y{at.y, at.y, at.y + kApart};
  if (!turn.apply(3, x.data(), y.data())) return std::nullopt;
  double worst = 1.0;
  for (std::size_t k = 1; k < 3; ++k) {
    const double true_length = on_ellipsoid(to, 0.5 * (y[0] + y[k]), x[k] - x[0], y[k] - y[0]);
    if (!(true_length > 0.0) || !std::isfinite(true_length)) return std::nullopt;
    const double scale = kApart / true_length;
    if (std::abs(std::log(scale)) > std::abs(std::log(worst))) worst = scale;
  }
  return worst;
}

std::optional<geom::Vec2> place_on_earth(OGRSpatialReferenceH system, geom::Vec2 at) {
  const System from(gdal().OSRClone(system)), to(gdal().OSRNewSpatialReference(nullptr));
  if (!to || gdal().OSRSetWellKnownGeogCS(to.get(), "WGS84") != OGRERR_NONE) return std::nullopt;
  if (!Turn(from, to).apply(1, &at.x, &at.y)) return std::nullopt;
  if (!std::isfinite(at.x) || !std::isfinite(at.y)) return std::nullopt;
  return at;
}

double degrees_apart(geom::Vec2 a, geom::Vec2 b) {
  const double p = a.y * geom::kDegree, q = b.y * geom::kDegree;
  const double half_north = std::sin(0.5 * (q - p));
  const double half_east = std::sin(0.5 * (b.x - a.x) * geom::kDegree);
  const double h = half_north * half_north + std::cos(p) * std::cos(q) * half_east * half_east;
  return 2.0 * std::asin(std::sqrt(std::min(1.0, h))) / geom::kDegree;
}

}  // namespace hummock::ground

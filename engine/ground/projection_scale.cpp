#include "engine/ground/projection_scale.h"

#include <ogr_spatialref.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

namespace hummock::ground {
namespace {

constexpr double kApart = 100.0;  // m

struct Destroy {
  void operator()(OGRCoordinateTransformation* t) const {
    OGRCoordinateTransformation::DestroyCT(t);
  }
};

// Length of a step in degrees, by the radii of curvature in the meridian and the prime vertical.
double on_ellipsoid(const OGRSpatialReference& system, double latitude, double east, double north) {
  const double a = system.GetSemiMajor(), inverse = system.GetInvFlattening();
  const double f = inverse > 0.0 ? 1.0 / inverse : 0.0;
  const double e2 = f * (2.0 - f);
  const double s = std::sin(latitude * geom::kDegree), w = std::sqrt(1.0 - e2 * s * s);
  const double meridian = a * (1.0 - e2) / (w * w * w), vertical = a / w;
  return std::hypot(meridian * north * geom::kDegree,
                    vertical * std::cos(latitude * geom::kDegree) * east * geom::kDegree);
}

}  // namespace

std::optional<double> projection_scale(const OGRSpatialReference& system, geom::Vec2 at) {
  OGRSpatialReference from(system);
  const std::unique_ptr<OGRSpatialReference> to(from.CloneGeogCS());
  if (!to) return std::nullopt;
  from.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  to->SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const std::unique_ptr<OGRCoordinateTransformation, Destroy> turn(
      OGRCreateCoordinateTransformation(&from, to.get()));
  if (!turn) return std::nullopt;
  std::array<double, 3> x{at.x, at.x + kApart, at.x}, y{at.y, at.y, at.y + kApart};
  if (turn->Transform(3, x.data(), y.data()) == 0) return std::nullopt;
  double worst = 1.0;
  for (std::size_t k = 1; k < 3; ++k) {
    const double true_length = on_ellipsoid(*to, 0.5 * (y[0] + y[k]), x[k] - x[0], y[k] - y[0]);
    if (!(true_length > 0.0) || !std::isfinite(true_length)) return std::nullopt;
    const double scale = kApart / true_length;
    if (std::abs(std::log(scale)) > std::abs(std::log(worst))) worst = scale;
  }
  return worst;
}

std::optional<geom::Vec2> place_on_earth(const OGRSpatialReference& system, geom::Vec2 at) {
  OGRSpatialReference from(system), to;
  if (to.SetWellKnownGeogCS("WGS84") != OGRERR_NONE) return std::nullopt;
  from.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  to.SetAxisMappingStrategy(OAMS_TRADITIONAL_GIS_ORDER);
  const std::unique_ptr<OGRCoordinateTransformation, Destroy> turn(
      OGRCreateCoordinateTransformation(&from, &to));
  if (!turn || turn->Transform(1, &at.x, &at.y) == 0) return std::nullopt;
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

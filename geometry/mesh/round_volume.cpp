#include "geometry/mesh/round_volume.h"

#include <algorithm>
#include <cmath>

namespace hummock::geom {
namespace {

constexpr Stretch kNone{0.0, 0.0};
constexpr double kEndless = 1e30;

// Where qa t² + 2 qb t + qc <= 0 for qa > 0.
Stretch between_roots(double qa, double qb, double qc) {
  const double d = qb * qb - qa * qc;
  if (d <= 0.0) return kNone;
  const double root = std::sqrt(d);
  return {(-qb - root) / qa, (-qb + root) / qa};
}

// Where z + t·dz lies between lo and hi.
Stretch between_planes(double z, double dz, double lo, double hi) {
  if (dz == 0.0) return z >= lo && z <= hi ? Stretch{-kEndless, kEndless} : kNone;
  const double t0 = (lo - z) / dz, t1 = (hi - z) / dz;
  return {std::min(t0, t1), std::max(t0, t1)};
}

Stretch common(Stretch a, Stretch b) {
  const Stretch both{std::max(a.from, b.from), std::min(a.to, b.to)};
  return both.from < both.to ? both : kNone;
}

Stretch in_ball(Vec3 p, Vec3 d) {
  p.z = 2.0 * p.z - 1.0;
  d.z *= 2.0;
  return between_roots(dot(d, d), dot(p, d), dot(p, p) - 1.0);
}

Stretch in_cylinder(Vec3 p, Vec3 d) {
  const Stretch slab = between_planes(p.z, d.z, 0.0, 1.0);
  const double qa = d.x * d.x + d.y * d.y, qc = p.x * p.x + p.y * p.y - 1.0;
  if (qa <= 0.0) return qc <= 0.0 ? slab : kNone;
  return common(between_roots(qa, p.x * d.x + p.y * d.y, qc), slab);
}

// Below its tip (z <= 1) the double cone is the one that is meant; its lines there are one stretch.
Stretch in_cone(Vec3 p, Vec3 d) {
  const double h = 1.0 - p.z;  // x² + y² <= (h − t dz)²
  const double qa = d.x * d.x + d.y * d.y - d.z * d.z;
  const double qb = p.x * d.x + p.y * d.y + h * d.z, qc = p.x * p.x + p.y * p.y - h * h;
  const Stretch slab = between_planes(p.z, d.z, 0.0, 1.0);
  if (qa > 0.0) return common(between_roots(qa, qb, qc), slab);
  // Steeper than the cone: outside between the roots, one of which is of the cone above the tip.
  const double disc = qb * qb - qa * qc;
  if (qa == 0.0) {
    if (qb == 0.0) return qc <= 0.0 ? slab : kNone;
    const double t = -qc / (2.0 * qb);
    return common(slab, qb > 0.0 ? Stretch{-kEndless, t} : Stretch{t, kEndless});
  }
  if (disc <= 0.0) return slab;
  const double root = std::sqrt(disc);
  const double t0 = (-qb + root) / qa, t1 = (-qb - root) / qa;  // t0 <= t1, since qa < 0
  return d.z > 0.0 ? common(slab, {-kEndless, t0}) : common(slab, {t1, kEndless});
}

}  // namespace

RoundBody::RoundBody(const RoundVolume& v) : kind_(v.kind), foot_(v.foot) {
  const double volume = dot(v.a, cross(v.b, v.c));
  x_ = cross(v.b, v.c) * (1.0 / volume);
  y_ = cross(v.c, v.a) * (1.0 / volume);
  z_ = cross(v.a, v.b) * (1.0 / volume);
}

Vec3 RoundBody::turned(Vec3 vector) const {
  return {dot(x_, vector), dot(y_, vector), dot(z_, vector)};
}

Vec3 RoundBody::into(Vec3 p) const {
  return turned(p - foot_);
}

Stretch RoundBody::inside(Vec3 from, Vec3 direction) const {
  const Vec3 p = into(from), d = turned(direction);
  if (kind_ == RoundKind::cone) return in_cone(p, d);
  return kind_ == RoundKind::cylinder ? in_cylinder(p, d) : in_ball(p, d);
}

double RoundBody::length_ahead(Vec3 from, Vec3 direction) const {
  const Stretch s = inside(from, direction);
  return std::max(0.0, s.to - std::max(0.0, s.from));
}

}  // namespace hummock::geom

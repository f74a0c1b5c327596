#include "geometry/mesh/round_bounds.h"

#include <cmath>

namespace hummock::geom {

Box3 bounds(const RoundVolume& v) {
  const bool ball = v.kind == RoundKind::ellipsoid;
  // An ellipse of half axes a, b (and of a ball c / 2) reaches as far along an axis as the length
  // of their components along it.
  const auto reach = [&](double a, double b, double c) {
    return std::sqrt(a * a + b * b + (ball ? 0.25 * c * c : 0.0));
  };
  const Vec3 half{reach(v.a.x, v.b.x, v.c.x), reach(v.a.y, v.b.y, v.c.y),
                  reach(v.a.z, v.b.z, v.c.z)};
  Box3 box;
  const Vec3 low = ball ? v.foot + v.c * 0.5 : v.foot;
  box.add(low - half);
  box.add(low + half);
  if (ball) return box;
  const Vec3 top = v.foot + v.c;
  const Vec3 wide = v.kind == RoundKind::cone ? Vec3{} : half;
  box.add(top - wide);
  box.add(top + wide);
  return box;
}

}  // namespace hummock::geom

// Sutherland & Hodgman's clipping (1974, Comm. ACM 17:32-42) of plan polygons by lines. Internal to
// geometry.
//
// `Shape` has size() and operator[], and takes corners by push_back. A polygon with notches may
// leave bridges of no width along the line.
#pragma once

#include <array>

#include "geometry/vec.h"

namespace hummock::geom {

// The part where `f`, linear in the plane, is >= 0; without corners when it has no area.
template <class Shape, class Function>
Shape clip_to(const Shape& in, const Function& f) {
  Shape out;
  for (std::size_t k = 0; k < in.size(); ++k) {
    const Vec2 p = in[k];
    const Vec2 q = in[(k + 1) % in.size()];
    const double fp = f(p);
    const double fq = f(q);
    if (fp >= 0.0) out.push_back(p);
    if ((fp > 0.0 && fq < 0.0) || (fp < 0.0 && fq > 0.0)) out.push_back(lerp(p, q, fp / (fp - fq)));
  }
  if (out.size() < 3) out.clear();
  return out;
}

template <class Shape>
Shape clip_to_left(const Shape& in, Vec2 a, Vec2 b) {
  const Vec2 along = b - a;
  return clip_to(in, [&](Vec2 p) { return cross(along, p - a); });
}

// By a triangle of counter-clockwise corners.
template <class Shape>
Shape clip_to_triangle(Shape in, const std::array<Vec2, 3>& t) {
  for (std::size_t k = 0; k < 3 && in.size() > 0; ++k) in = clip_to_left(in, t[k], t[(k + 1) % 3]);
  return in;
}

}  // namespace hummock::geom

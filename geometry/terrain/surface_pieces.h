// The pieces into which a polygon cuts the ground's triangles, for sums.
//
// Internal to geometry. A whole triangle is given as it is; a cut one as a fan of triangles whose
// signed plan areas add up to the part inside (some may be negative: clipping a polygon with
// notches leaves bridges, and sums of functions that are linear on the triangle cancel there).
#pragma once

#include <array>

#include "geometry/plan/polygon_cells.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

struct Piece {
  std::array<Vec2, 3> p;
  std::array<double, 3> z;  // m
  double area = 0.0;        // m², signed
  Vec2 gradient;            // of the triangle it was cut from
};

// Sutherland–Hodgman: the part of `polygon` in the triangle (counter-clockwise corners).
inline Polygon clip_to_triangle(const Polygon& polygon, const std::array<Vec2, 3>& triangle) {
  Polygon in = polygon;
  Polygon out;
  for (std::size_t e = 0; e < 3 && !in.empty(); ++e) {
    const Vec2 a = triangle[e];
    const Vec2 along = triangle[(e + 1) % 3] - a;
    out.clear();
    for (std::size_t k = 0; k < in.size(); ++k) {
      const Vec2 p = in[k];
      const Vec2 q = in[(k + 1) % in.size()];
      const double sp = cross(along, p - a);
      const double sq = cross(along, q - a);
      if (sp >= 0) out.push_back(p);
      if ((sp >= 0) != (sq >= 0)) out.push_back(lerp(p, q, sp / (sp - sq)));
    }
    in.swap(out);
  }
  return in;
}

// visit(const Piece&) for every piece, row by row from the south-west: a fixed order.
// `inside` must be counter-clockwise.
template <class Visit>
void for_pieces(const Heightfield& ground, const Polygon& inside, const std::vector<Cover>& cover,
                int j_first, int j_last, Visit visit) {
  const Grid& grid = ground.grid;
  const auto triangle = [&](Vec2 a, Vec2 b, Vec2 c, double za, double zb, double zc, Vec2 gradient,
                            bool whole) {
    if (whole) {
      visit(Piece{{a, b, c}, {za, zb, zc}, 0.5 * cross(b - a, c - a), gradient});
      return;
    }
    const Polygon cut = clip_to_triangle(inside, {a, b, c});
    const auto height = [&](Vec2 p) { return za + dot(gradient, p - a); };
    for (std::size_t k = 1; k + 1 < cut.size(); ++k) {
      const double area = 0.5 * cross(cut[k] - cut[0], cut[k + 1] - cut[0]);
      if (area == 0.0) continue;
      visit(Piece{{cut[0], cut[k], cut[k + 1]},
                  {height(cut[0]), height(cut[k]), height(cut[k + 1])},
                  area,
                  gradient});
    }
  };
  for (int j = j_first; j < j_last; ++j) {
    for (int i = 0; i + 1 < grid.nx; ++i) {
      const Cover c = cover[static_cast<std::size_t>(j) * static_cast<std::size_t>(grid.nx - 1) +
                            static_cast<std::size_t>(i)];
      if (c == Cover::none) continue;
      const double za = ground.at(i, j), zb = ground.at(i + 1, j);
      const double zc = ground.at(i + 1, j + 1), zd = ground.at(i, j + 1);
      const Vec2 a = grid.node(i, j), b = grid.node(i + 1, j);
      const Vec2 cc = grid.node(i + 1, j + 1), d = grid.node(i, j + 1);
      const double s = 1.0 / grid.cell;
      triangle(a, b, d, za, zb, zd, {(zb - za) * s, (zd - za) * s}, c == Cover::full);
      triangle(cc, d, b, zc, zd, zb, {(zc - zd) * s, (zc - zb) * s}, c == Cover::full);
    }
  }
}

}  // namespace hummock::geom

// The pieces into which a polygon cuts the ground's triangles, for sums.
//
// Internal to geometry. A whole triangle is given as it is; a cut one as a fan of triangles whose
// signed plan areas add up to the part inside (some may be negative: clipping a polygon with
// notches leaves bridges, and sums of functions that are linear on the triangle cancel there).
#pragma once

#include <array>

#include "geometry/plan/clip.h"
#include "geometry/plan/polygon_cells.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

struct Piece {
  std::array<Vec2, 3> p;
  std::array<double, 3> z;  // m
  double area = 0.0;        // m², signed
  Vec2 gradient;            // of the triangle it was cut from
};

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

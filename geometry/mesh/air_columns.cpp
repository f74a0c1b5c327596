#include "geometry/mesh/air_columns.h"

#include <cmath>
#include <utility>

namespace hummock::geom {
namespace {

using SheetTriangle = SheetAbove::Triangle;

Box2 box_of(const Convex& c) {
  Box2 box;
  for (int k = 0; k < c.n; ++k) box.add(c[k]);
  return box;
}

bool apart(const Box2& a, const Box2& b) {
  return a.hi.x < b.lo.x || b.hi.x < a.lo.x || a.hi.y < b.lo.y || b.hi.y < a.lo.y;
}

std::vector<SheetTriangle> plan_triangles(const Mesh& mesh) {
  std::vector<SheetTriangle> out;
  out.reserve(mesh.triangles.size());
  for (const auto& [a, b, c] : mesh.triangles) {
    const PlanTriangle t = plan_of(mesh.vertices[a], mesh.vertices[b], mesh.vertices[c]);
    if (t.up != 0) out.push_back({t, box_of(t.convex)});
  }
  return out;
}

// Does one side of the triangle keep all of the piece out? Clear of it by so much that no corner
// cut anew, which lies between two of the piece but for rounding, could come back: clipping would
// leave nothing.
bool kept_out(const Convex& piece, const std::array<Vec2, 3>& triangle) {
  constexpr double kClear = 1e-6;  // m
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec2 a = triangle[k], along = triangle[(k + 1) % 3] - a;
    const double clear = -kClear * (std::abs(along.x) + std::abs(along.y));
    bool out = true;
    for (int c = 0; c < piece.n && out; ++c) out = cross(along, piece[c] - a) < clear;
    if (out) return true;
  }
  return false;
}

double positive_part(const Convex& piece, const Linear& f) {
  return integral(clip_to(piece, f), f);
}

// ∫ of the solid's column below height z between ground g and sheet c, clamped:
// min(z, c) − g where both z and c are above g.
double column_part(const Convex& piece, const Linear& z, const Linear& g, const Linear& c) {
  const Linear depth = z - g;
  const Linear room = c - g;
  const Convex air = clip_to(clip_to(piece, depth), room);
  if (air.n == 0) return 0.0;
  const Linear over = z - c;
  const Convex capped = clip_to(air, over);
  const Convex free = clip_to(air, [&](Vec2 p) { return -over(p); });
  return integral(capped, room) + integral(free, depth);
}

}  // namespace

AirSums air_between(const Heightfield& ground, const Mesh& sheet) {
  AirSums sums;
  for (const SheetTriangle& t : plan_triangles(sheet)) {
    sums.plan_area_m2 += area(t.plan.convex);
    overlay_with_ground(ground, t.plan.convex, [&](const Convex& piece, const Linear& g) {
      const Linear room = t.plan.height - g;
      bool all_above = true;
      for (int k = 0; k < piece.n; ++k) {
        const double r = room(piece[k]);
        all_above = all_above && r >= 0.0;
        if (r < sums.least_m) {
          sums.least_m = r;
          sums.least_at = piece[k];
        }
      }
      const double gap = integral(piece, room);
      sums.gap_m3 += gap;
      sums.volume_m3 += all_above ? gap : positive_part(piece, room);
    });
  }
  return sums;
}

SheetAbove::SheetAbove(const Mesh& sheet) : triangles_(plan_triangles(sheet)) {
  std::vector<Box2> boxes;
  for (const Triangle& t : triangles_) boxes.push_back(t.box);
  boxes_ = PlanBoxes(std::move(boxes));
}

double volume_in_air(const Heightfield& ground, const SheetAbove& sheet, const Mesh& solid) {
  const std::vector<SheetTriangle> faces = plan_triangles(solid);
  Box2 about;
  for (const SheetTriangle& face : faces) {
    about.add(face.box.lo);
    about.add(face.box.hi);
  }
  const std::vector<std::size_t> above = sheet.boxes().meeting(about);
  double volume = 0.0;
  for (const SheetTriangle& face : faces) {
    double part = 0.0;
    for (const std::size_t k : above) {
      const SheetTriangle& t = sheet.triangles()[k];
      if (apart(face.box, t.box) || kept_out(face.plan.convex, t.plan.corners)) continue;
      overlay_with_ground(ground, clip_to_triangle(face.plan.convex, t.plan.corners),
                          [&](const Convex& piece, const Linear& g) {
                            part += column_part(piece, face.plan.height, g, t.plan.height);
                          });
    }
    volume += face.plan.up * part;
  }
  return volume;
}

}  // namespace hummock::geom

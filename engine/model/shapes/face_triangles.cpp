#include "engine/model/shapes/face_triangles.h"

#include <algorithm>
#include <cmath>

#include "geometry/plan/polygon.h"
#include "geometry/plan/triangulate_cgal.h"

namespace hummock {
namespace {

using geom::Triangle;
using geom::Vec2;
using geom::Vec3;

Vec3 newell_normal(const std::vector<Vec3>& vertices, std::span<const std::uint32_t> corners) {
  Vec3 sum;
  const Vec3 o = vertices[corners[0]];
  for (std::size_t k = 1; k + 1 < corners.size(); ++k) {
    sum = sum + cross(vertices[corners[k]] - o, vertices[corners[k + 1]] - o);
  }
  return sum;
}

// Drops the axis along which the face is seen largest; keeps its winding.
Vec2 seen_along(Vec3 p, Vec3 normal) {
  const double x = std::abs(normal.x);
  const double y = std::abs(normal.y);
  const double z = std::abs(normal.z);
  if (z >= x && z >= y) return normal.z > 0.0 ? Vec2{p.x, p.y} : Vec2{p.y, p.x};
  if (x >= y) return normal.x > 0.0 ? Vec2{p.y, p.z} : Vec2{p.z, p.y};
  return normal.y > 0.0 ? Vec2{p.z, p.x} : Vec2{p.x, p.z};
}

bool is_convex(const geom::Polygon& shape) {
  const std::size_t n = shape.size();
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 a = shape[k];
    const Vec2 b = shape[(k + 1) % n];
    const Vec2 c = shape[(k + 2) % n];
    if (cross(b - a, c - b) < 0.0) return false;
  }
  return true;
}

std::uint32_t corner_at(const geom::Polygon& shape, std::span<const std::uint32_t> corners,
                        Vec2 p) {
  const auto it = std::find(shape.begin(), shape.end(), p);
  return corners[static_cast<std::size_t>(it - shape.begin())];
}

}  // namespace

std::vector<Triangle> face_triangles(const std::vector<Vec3>& vertices,
                                     std::span<const std::uint32_t> corners) {
  const Vec3 normal = newell_normal(vertices, corners);
  if (!(length(normal) > 0.0)) return {};
  if (corners.size() == 3) return {{corners[0], corners[1], corners[2]}};
  geom::Polygon shape;
  for (std::uint32_t c : corners) shape.push_back(seen_along(vertices[c], normal));
  std::vector<Triangle> triangles;
  if (is_convex(shape)) {
    for (std::size_t k = 1; k + 1 < corners.size(); ++k) {
      triangles.push_back({corners[0], corners[k], corners[k + 1]});
    }
    return triangles;
  }
  for (const auto& t : geom::triangles_of(shape)) {
    triangles.push_back({corner_at(shape, corners, t[0]), corner_at(shape, corners, t[1]),
                         corner_at(shape, corners, t[2])});
  }
  return triangles;
}

}  // namespace hummock

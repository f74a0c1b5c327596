#include "geometry/mesh/star_solid.h"

#include <cmath>

namespace hummock::geom {
namespace {

constexpr double kMargin = 1e-9;   // of a face's height over the point, to the mesh's size
constexpr double kWhole = 1e-6;    // sr by which the sum may miss the sphere
constexpr double kSliver = 1e-9;   // of a face's area, to the square of the size: none is less
constexpr std::size_t kLeast = 4;  // faces

// Of the triangle seen from the origin (Van Oosterom & Strackee 1983, from memory).
double solid_angle(Vec3 a, Vec3 b, Vec3 c) {
  const double la = length(a), lb = length(b), lc = length(c);
  const double below = la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb;
  return 2.0 * std::atan2(dot(a, cross(b, c)), below);
}

}  // namespace

bool is_star_solid(const Mesh& mesh) {
  if (mesh.triangles.size() < kLeast || !is_closed(mesh)) return false;
  const Box3 box = bounds(mesh);
  const Vec3 middle = box.centre();
  const double size = length(box.hi - box.lo);
  double sphere = 0.0;
  for (const auto& [i, j, k] : mesh.triangles) {
    const Vec3 a = mesh.vertices[i] - middle, b = mesh.vertices[j] - middle,
               c = mesh.vertices[k] - middle;
    const Vec3 normal = cross(b - a, c - a);
    const double twice = length(normal);
    if (!(twice > kSliver * size * size) || !(dot(normal, a) > kMargin * size * twice))
      return false;
    sphere += solid_angle(a, b, c);
  }
  return std::abs(sphere - 4.0 * kPi) < kWhole;
}

}  // namespace hummock::geom

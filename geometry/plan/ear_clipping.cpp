#include <numeric>

#include "geometry/plan/polygon.h"

namespace hummock::geom {
namespace {

bool strictly_inside(Vec2 a, Vec2 b, Vec2 c, Vec2 p) {
  return cross(b - a, p - a) > 0.0 && cross(c - b, p - b) > 0.0 && cross(a - c, p - c) > 0.0;
}

// A corner of the rest that would be cut through: inside the ear, or on its new side.
bool blocks(Vec2 a, Vec2 b, Vec2 c, Vec2 p) {
  if (p == a || p == b || p == c) return false;
  const bool on_cut = cross(a - c, p - c) == 0.0 && dot(p - a, p - c) < 0.0;
  return on_cut || strictly_inside(a, b, c, p);
}

bool is_ear(const Polygon& polygon, const std::vector<std::size_t>& rest, std::size_t k) {
  const std::size_t n = rest.size();
  const Vec2 a = polygon[rest[(k + n - 1) % n]];
  const Vec2 b = polygon[rest[k]];
  const Vec2 c = polygon[rest[(k + 1) % n]];
  if (cross(b - a, c - b) <= 0.0) return false;
  for (std::size_t i : rest) {
    if (blocks(a, b, c, polygon[i])) return false;
  }
  return true;
}

// A corner in line with its neighbours holds no area and may go at any time.
bool is_flat(const Polygon& polygon, const std::vector<std::size_t>& rest, std::size_t k) {
  const std::size_t n = rest.size();
  const Vec2 a = polygon[rest[(k + n - 1) % n]];
  const Vec2 b = polygon[rest[k]];
  const Vec2 c = polygon[rest[(k + 1) % n]];
  return cross(b - a, c - b) == 0.0;
}

}  // namespace

std::vector<std::array<Vec2, 3>> triangles_of(const Polygon& given) {
  Polygon polygon = given;
  if (signed_area(polygon) < 0.0) polygon.assign(given.rbegin(), given.rend());
  std::vector<std::size_t> rest(polygon.size());
  std::iota(rest.begin(), rest.end(), std::size_t{0});
  std::vector<std::array<Vec2, 3>> triangles;
  while (rest.size() > 3) {
    std::size_t ear = rest.size();
    for (std::size_t k = 0; k < rest.size() && ear == rest.size(); ++k) {
      if (is_ear(polygon, rest, k)) ear = k;
    }
    if (ear < rest.size()) {
      const std::size_t n = rest.size();
      triangles.push_back(
          {polygon[rest[(ear + n - 1) % n]], polygon[rest[ear]], polygon[rest[(ear + 1) % n]]});
    } else {
      for (std::size_t k = 0; k < rest.size() && ear == rest.size(); ++k) {
        if (is_flat(polygon, rest, k)) ear = k;
      }
      if (ear == rest.size()) return triangles;  // not simple: what could be cut off so far
    }
    rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  if (rest.size() == 3 && !is_flat(polygon, rest, 0)) {
    triangles.push_back({polygon[rest[0]], polygon[rest[1]], polygon[rest[2]]});
  }
  return triangles;
}

}  // namespace hummock::geom

#include "engine/mesh_export/thick_sheet.h"

#include <cmath>
#include <unordered_set>

namespace hummock::mesh_export {

using geom::Vec2;
using geom::Vec3;

geom::Mesh slab(Vec2 a, Vec2 b, double foot_a, double foot_b, double top_a, double top_b,
                double thickness) {
  const double along = geom::distance(a, b);
  const Vec2 u = unit(b - a);
  const Vec2 v = geom::left_of(u) * (0.5 * thickness);
  const double more = 0.5 * thickness;
  const double foot_rise = (foot_b - foot_a) / along * more;
  const double top_rise = (top_b - top_a) / along * more;
  const Vec2 p = a - u * more;
  const Vec2 q = b + u * more;
  geom::Mesh out;
  const auto add = [&](Vec2 at, double z) { out.vertices.push_back(geom::at_height(at, z)); };
  for (const double side : {-1.0, 1.0}) {  // right of a→b, then left
    add(p + v * side, foot_a - foot_rise);
    add(q + v * side, foot_b + foot_rise);
    add(q + v * side, top_b + top_rise);
    add(p + v * side, top_a - top_rise);
  }
  const auto quad = [&](std::uint32_t c0, std::uint32_t c1, std::uint32_t c2, std::uint32_t c3) {
    out.triangles.push_back({c0, c1, c2});
    out.triangles.push_back({c0, c2, c3});
  };
  quad(0, 1, 2, 3);  // right face
  quad(5, 4, 7, 6);  // left face
  quad(0, 4, 5, 1);  // foot
  quad(3, 2, 6, 7);  // top
  quad(0, 3, 7, 4);  // end at a
  quad(1, 5, 6, 2);  // end at b
  return out;
}

geom::Mesh thickened_sheet(const geom::Mesh& sheet, double thickness) {
  const geom::Mesh flat = geom::weld(sheet, 1e-9);
  const std::vector<Vec3> normals = geom::vertex_normals(flat);
  const auto n = static_cast<std::uint32_t>(flat.vertices.size());
  geom::Mesh out;
  for (std::uint32_t v = 0; v < n; ++v)
    out.vertices.push_back(flat.vertices[v] + normals[v] * (0.5 * thickness));
  for (std::uint32_t v = 0; v < n; ++v)
    out.vertices.push_back(flat.vertices[v] - normals[v] * (0.5 * thickness));
  std::unordered_set<std::uint64_t> edges;
  const auto key = [](std::uint32_t a, std::uint32_t b) {
    return (static_cast<std::uint64_t>(a) << 32U) | b;
  };
  for (const geom::Triangle& t : flat.triangles)
    for (std::size_t k = 0; k < 3; ++k) edges.insert(key(t[k], t[(k + 1) % 3]));
  for (const auto& [a, b, c] : flat.triangles) {
    out.triangles.push_back({a, b, c});
    out.triangles.push_back({a + n, c + n, b + n});
  }
  for (const geom::Triangle& t : flat.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t a = t[k];
      const std::uint32_t b = t[(k + 1) % 3];
      if (edges.count(key(b, a)) != 0) continue;
      out.triangles.push_back({b, a, a + n});
      out.triangles.push_back({b, a + n, b + n});
    }
  return out;
}

}  // namespace hummock::mesh_export

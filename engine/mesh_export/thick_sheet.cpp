#include "engine/mesh_export/thick_sheet.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numeric>
#include <unordered_set>
#include <utility>

#include "geometry/disjoint_sets.h"

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

namespace {

std::uint64_t key(std::uint32_t a, std::uint32_t b) {
  return (static_cast<std::uint64_t>(a) << 32U) | b;
}

// Directed edges without a mate.
std::vector<std::pair<std::uint32_t, std::uint32_t>> rim_of(const geom::Mesh& mesh) {
  std::unordered_set<std::uint64_t> edges;
  for (const geom::Triangle& t : mesh.triangles)
    for (std::size_t k = 0; k < 3; ++k) edges.insert(key(t[k], t[(k + 1) % 3]));
  std::vector<std::pair<std::uint32_t, std::uint32_t>> rim;
  for (const geom::Triangle& t : mesh.triangles)
    for (std::size_t k = 0; k < 3; ++k)
      if (edges.count(key(t[(k + 1) % 3], t[k])) == 0) rim.emplace_back(t[k], t[(k + 1) % 3]);
  return rim;
}

// Moves the rim outwards in the sheet: at each vertex the two edges' own outward shifts meet in a
// mitre, no longer than three times the shift.
void grow_rim(geom::Mesh& mesh, const std::vector<Vec3>& normals, double grow) {
  std::vector<Vec3> outward(mesh.vertices.size());
  for (const auto& [a, b] : rim_of(mesh)) {
    const Vec3 along = mesh.vertices[b] - mesh.vertices[a];
    outward[a] = outward[a] + unit(cross(along, normals[a]));
    outward[b] = outward[b] + unit(cross(along, normals[b]));
  }
  for (std::size_t v = 0; v < outward.size(); ++v) {
    const double square = dot(outward[v], outward[v]);
    if (square > 0.0)
      mesh.vertices[v] = mesh.vertices[v] + outward[v] * (grow * std::min(2.0 / square, 1.5));
  }
}

struct Side {
  std::uint32_t face = 0;
  bool forward = false;  // runs from the smaller vertex to the larger
};

geom::Mesh piece_of(const geom::Mesh& sheet, const std::vector<std::uint32_t>& faces) {
  geom::Mesh out;
  std::map<std::uint32_t, std::uint32_t> moved;
  for (const std::uint32_t f : faces) {
    geom::Triangle t = sheet.triangles[f];
    for (std::uint32_t& v : t) {
      const auto [at, added] = moved.emplace(v, static_cast<std::uint32_t>(out.vertices.size()));
      if (added) out.vertices.push_back(sheet.vertices[v]);
      v = at->second;
    }
    out.triangles.push_back(t);
  }
  return out;
}

}  // namespace

geom::Mesh thickened_sheet(const geom::Mesh& sheet, double thickness, double grow) {
  geom::Mesh flat = geom::weld(sheet, 1e-9);
  const std::vector<Vec3> normals = geom::vertex_normals(flat);
  if (grow > 0.0) grow_rim(flat, normals, grow);
  const auto n = static_cast<std::uint32_t>(flat.vertices.size());
  geom::Mesh out;
  for (std::uint32_t v = 0; v < n; ++v)
    out.vertices.push_back(flat.vertices[v] + normals[v] * (0.5 * thickness));
  for (std::uint32_t v = 0; v < n; ++v)
    out.vertices.push_back(flat.vertices[v] - normals[v] * (0.5 * thickness));
  for (const auto& [a, b, c] : flat.triangles) {
    out.triangles.push_back({a, b, c});
    out.triangles.push_back({a + n, c + n, b + n});
  }
  for (const auto& [a, b] : rim_of(flat)) {
    out.triangles.push_back({b, a, a + n});
    out.triangles.push_back({b, a + n, b + n});
  }
  return out;
}

std::vector<geom::Mesh> smooth_patches(const geom::Mesh& given) {
  const geom::Mesh sheet = geom::weld(given, 1e-9);
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::vector<Side>> edges;
  std::vector<Vec3> normals;
  for (std::uint32_t f = 0; f < sheet.triangles.size(); ++f) {
    const geom::Triangle& t = sheet.triangles[f];
    normals.push_back(unit(cross(sheet.vertices[t[1]] - sheet.vertices[t[0]],
                                 sheet.vertices[t[2]] - sheet.vertices[t[0]])));
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t a = t[k];
      const std::uint32_t b = t[(k + 1) % 3];
      edges[std::minmax(a, b)].push_back({f, a < b});
    }
  }
  geom::DisjointSets sets(sheet.triangles.size());
  const double least = std::cos(45.0 * geom::kDegree);
  for (const auto& [edge, sides] : edges) {
    if (sides.size() != 2 || sides[0].forward == sides[1].forward) continue;
    if (dot(normals[sides[0].face], normals[sides[1].face]) < least) continue;
    sets.join(sides[0].face, sides[1].face);
  }
  std::map<std::size_t, std::vector<std::uint32_t>> groups;
  for (std::uint32_t f = 0; f < sets.size(); ++f) groups[sets.root(f)].push_back(f);
  std::vector<geom::Mesh> out;
  out.reserve(groups.size());
  for (const auto& [root, faces] : groups) out.push_back(piece_of(sheet, faces));
  return out;
}

}  // namespace hummock::mesh_export

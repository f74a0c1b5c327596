#include "engine/mesh_export/creased.h"

#include <cmath>

namespace hummock::mesh_export {
namespace {

using geom::Vec3;

// Faces round each vertex, as one array with starts.
struct Fans {
  std::vector<std::uint32_t> start;
  std::vector<std::uint32_t> face;
};

Fans fans_of(const geom::Mesh& mesh) {
  Fans fans;
  fans.start.assign(mesh.vertices.size() + 1, 0);
  for (const geom::Triangle& t : mesh.triangles)
    for (const std::uint32_t v : t) ++fans.start[v + 1];
  for (std::size_t k = 1; k < fans.start.size(); ++k) fans.start[k] += fans.start[k - 1];
  fans.face.resize(fans.start.back());
  std::vector<std::uint32_t> at(fans.start.begin(), fans.start.end() - 1);
  for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f)
    for (const std::uint32_t v : mesh.triangles[f]) fans.face[at[v]++] = f;
  return fans;
}

CreasedMesh smooth(const geom::Mesh& mesh) {
  CreasedMesh out{mesh, geom::vertex_normals(mesh), {}};
  out.from.resize(mesh.vertices.size());
  for (std::uint32_t v = 0; v < out.from.size(); ++v) out.from[v] = v;
  return out;
}

bool near(Vec3 a, Vec3 b) {
  return dot(a - b, a - b) < 1e-12;
}

}  // namespace

CreasedMesh with_normals(const geom::Mesh& mesh, double crease) {
  if (crease >= geom::kPi) return smooth(mesh);
  const Fans fans = fans_of(mesh);
  std::vector<Vec3> scaled;  // unit normal × area
  for (const auto& [a, b, c] : mesh.triangles)
    scaled.push_back(
        cross(mesh.vertices[b] - mesh.vertices[a], mesh.vertices[c] - mesh.vertices[a]));
  const double least = std::cos(crease);
  CreasedMesh out;
  std::vector<std::vector<std::uint32_t>> copies(mesh.vertices.size());
  for (std::uint32_t f = 0; f < mesh.triangles.size(); ++f) {
    const Vec3 own = unit(scaled[f]);
    geom::Triangle corners{};
    for (std::size_t k = 0; k < 3; ++k) {
      const std::uint32_t v = mesh.triangles[f][k];
      Vec3 sum;
      for (std::uint32_t i = fans.start[v]; i < fans.start[v + 1]; ++i)
        if (dot(unit(scaled[fans.face[i]]), own) >= least) sum = sum + scaled[fans.face[i]];
      const Vec3 normal = length(sum) > 0.0 ? unit(sum) : Vec3{0.0, 0.0, 1.0};
      std::uint32_t found = 0xFFFFFFFFU;
      for (const std::uint32_t c : copies[v])
        if (near(out.normals[c], normal)) found = c;
      if (found == 0xFFFFFFFFU) {
        found = static_cast<std::uint32_t>(out.mesh.vertices.size());
        out.mesh.vertices.push_back(mesh.vertices[v]);
        out.normals.push_back(normal);
        out.from.push_back(v);
        copies[v].push_back(found);
      }
      corners[k] = found;
    }
    out.mesh.triangles.push_back(corners);
  }
  return out;
}

}  // namespace hummock::mesh_export

#include "engine/shade/beam/casters.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "geometry/mesh/round_bounds.h"

namespace hummock::shade {
namespace {

bool casts(const Part& part) {
  switch (part.kind) {
    case PartKind::ground:
    case PartKind::water:
    case PartKind::skirt:  // these lie in the ground
    case PartKind::apron:
    case PartKind::footing:
    case PartKind::drain_grille:
      return false;
    case PartKind::crown:
    case PartKind::planting:
      return part.leaf_density > 0.0;
    default:
      return part.openness < 1.0;
  }
}

CasterKind kind_of(const Part& part) {
  if (part.leaf_density > 0.0) return CasterKind::volume;
  return part.openness > 0.0 ? CasterKind::sheet : CasterKind::opaque;
}

std::vector<Vec3> triangle_normals(const geom::Mesh& mesh) {
  std::vector<Vec3> normals;
  normals.reserve(mesh.triangles.size());
  for (const geom::Triangle& t : mesh.triangles) {
    const Vec3 a = mesh.vertices[t[0]];
    normals.push_back(unit(cross(mesh.vertices[t[1]] - a, mesh.vertices[t[2]] - a)));
  }
  return normals;
}

constexpr std::size_t kClusterTriangles = 32;

Cluster make_cluster(const geom::Mesh& mesh, const std::uint32_t* ids, std::size_t count) {
  Cluster c;
  std::map<std::uint32_t, std::uint32_t> place;
  for (std::size_t k = 0; k < count; ++k) {
    geom::Triangle t = mesh.triangles[ids[k]];
    for (std::uint32_t& v : t) {
      const auto [at, fresh] = place.try_emplace(v, static_cast<std::uint32_t>(c.points.size()));
      if (fresh) {
        c.points.push_back(mesh.vertices[v]);
        c.box.add(mesh.vertices[v]);
      }
      v = at->second;
    }
    c.triangles.push_back(t);
    c.ids.push_back(ids[k]);
  }
  return c;
}

// Halves along the longest side of the triangles' middles until few enough are left.
void split(const geom::Mesh& mesh, std::uint32_t* ids, std::size_t count,
           std::vector<Cluster>& clusters) {
  if (count <= kClusterTriangles) {
    if (count > 0) clusters.push_back(make_cluster(mesh, ids, count));
    return;
  }
  const auto middle = [&](std::uint32_t id) {
    const geom::Triangle& t = mesh.triangles[id];
    return mesh.vertices[t[0]] + mesh.vertices[t[1]] + mesh.vertices[t[2]];
  };
  geom::Box3 box;
  for (std::size_t k = 0; k < count; ++k) box.add(middle(ids[k]));
  const Vec3 size = box.hi - box.lo;
  const Vec3 axis = size.x >= size.y && size.x >= size.z ? Vec3{1, 0, 0}
                    : size.y >= size.z                   ? Vec3{0, 1, 0}
                                                         : Vec3{0, 0, 1};
  std::sort(ids, ids + count, [&](std::uint32_t a, std::uint32_t b) {
    const double da = dot(middle(a), axis), db = dot(middle(b), axis);
    return da != db ? da < db : a < b;
  });
  split(mesh, ids, count / 2, clusters);
  split(mesh, ids + count / 2, count - count / 2, clusters);
}

std::vector<Cluster> clusters_of(const geom::Mesh& mesh) {
  std::vector<std::uint32_t> ids(mesh.triangles.size());
  std::iota(ids.begin(), ids.end(), 0U);
  std::vector<Cluster> clusters;
  split(mesh, ids.data(), ids.size(), clusters);
  return clusters;
}

}  // namespace

std::vector<Caster> casters_of(const Model& model) {
  std::vector<Caster> result;
  for (std::size_t k = 0; k < model.parts.size(); ++k) {
    const Part& part = model.parts[k];
    if (part.mesh.empty() || !casts(part)) continue;
    Caster c;
    c.kind = kind_of(part);
    c.part = static_cast<int>(k);
    c.mesh = &part.mesh;
    c.normals = triangle_normals(part.mesh);
    c.clusters = clusters_of(part.mesh);
    c.near_clusters = BoxTree(boxes_of(c.clusters));
    c.box = geom::bounds(part.mesh);
    if (part.round && c.kind == CasterKind::volume) {
      c.round = geom::RoundBody(*part.round);
      c.box = geom::bounds(*part.round);
    }
    c.closed = part.closed;
    c.openness = part.openness;
    if (part.aperture > 0.0 && part.wire > 0.0) {
      c.pitch = part.aperture + part.wire;
      c.wire = part.wire;
    }
    c.leaf_density = part.leaf_density;
    c.bare = part.bare;
    c.bare_share = part.bare_share;
    result.push_back(std::move(c));
  }
  // What is dark needs no look at mesh and leaves.
  std::stable_sort(result.begin(), result.end(),
                   [](const Caster& a, const Caster& b) { return a.kind < b.kind; });
  return result;
}

double sheet_transmittance(const Caster& sheet, Vec3 n, Vec3 s) {
  if (sheet.pitch <= 0.0) return sheet.openness;
  constexpr double kNearlyLevel = 0.95;  // cosine of the sheet's slope
  const Vec3 level = std::abs(n.z) > kNearlyLevel ? unit(Vec3{1.0, 0.0, 0.0} - n * n.x)
                                                  : unit(Vec3{-n.y, n.x, 0.0});
  const Vec3 up = cross(n, level);
  const double through = std::abs(dot(s, n));
  const auto gap = [&](Vec3 across) {
    const double seen = std::hypot(through, dot(s, across));
    return through <= 0.0 ? 0.0 : std::max(0.0, 1.0 - sheet.wire * seen / (sheet.pitch * through));
  };
  return gap(level) * gap(up);
}

double extinction(const Caster& volume, const sun::Date& date) {
  const bool bare = volume.bare && sun::within(*volume.bare, date);
  return kLeafProjection * volume.leaf_density * (bare ? volume.bare_share : 1.0);
}

}  // namespace hummock::shade

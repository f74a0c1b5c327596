#include "engine/shade/beam/casters.h"

#include <algorithm>
#include <cmath>

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

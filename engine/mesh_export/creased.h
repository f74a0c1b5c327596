// Normals that follow the shape.
#pragma once

#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock::mesh_export {

struct CreasedMesh {
  geom::Mesh mesh;                  // a vertex doubled for each normal it needs
  std::vector<geom::Vec3> normals;  // unit, one a vertex
  std::vector<std::uint32_t> from;  // the input's vertex of each
};

// At each corner the area-weighted mean of the faces round the vertex that turn less than `crease`
// (rad) from the corner's own face. crease = π: smooth throughout, no vertex doubled.
CreasedMesh with_normals(const geom::Mesh& mesh, double crease);

}  // namespace hummock::mesh_export

// Triangles of a mesh that lie in one plane and share sides, as convex faces.
#pragma once

#include "engine/shade/cast/piece.h"

namespace hummock::shade {

struct FlatFace {
  std::vector<std::uint32_t> corners;  // vertices of the mesh, counter-clockwise
  Vec3 normal;                         // unit
};

// Of the triangles `of` (rising) of a mesh with unit normals; those without area are left out.
// Merged greedily, in order; straight corners are dropped.
std::vector<FlatFace> flat_faces(const geom::Mesh& mesh, const std::vector<Vec3>& normals,
                                 const std::vector<std::uint32_t>& of);

}  // namespace hummock::shade

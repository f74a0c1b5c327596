// Upright sheets of a mesh as curtains (engine/shade/cast/piece.h).
#pragma once

#include "engine/shade/cast/piece.h"

namespace hummock::shade {

// Those that the mesh's upright triangles make, wherever over each place of a line in plan they
// fill just one stretch of height; marks the triangles as taken. Where they overlap or leave a gap
// one above the other the whole line is left as it is.
std::vector<Piece> take_curtains(const geom::Mesh& mesh, const std::vector<Vec3>& normals,
                                 std::vector<char>& taken);

}  // namespace hummock::shade

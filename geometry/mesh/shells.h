// The separate pieces of surface that a closed mesh consists of, and which way each faces.
//
// A shell is a set of triangles joined by shared vertices. Every shell of a closed mesh is closed;
// one that lies in no other faces outwards when its signed volume is positive. A mirrored copy in a
// file has it negative, and hides behind the whole mesh's positive one. A shell inside another is a
// hollow when it faces the other way, and is left as it is.
#pragma once

#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock::geom {

// The shell of each triangle, numbered from 0 in order of their first triangles. Vertices are
// matched by index.
std::vector<int> shells(const Mesh& mesh);

// Turns outwards every shell that faces inwards and whose first vertex lies inside no other;
// returns how many. The mesh must be closed and consistently wound in each shell. O(triangles ×
// shells) at worst; boxes that do not meet are passed over.
int turn_shells_outwards(Mesh& mesh);

}  // namespace hummock::geom

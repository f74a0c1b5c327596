// What one sees of a mesh from above, as an outline: thousands of triangles become one line.
//
// The triangles that look up, each counter-clockwise in plan, add up to a chain whose rim is the
// edges that only one of them has. Filled by the winding rule, the rim covers each point as often
// as triangles do: just their union, whatever they overlap. A mesh that is not closed may look down
// only, so all its triangles are taken, turned up.
#pragma once

#include <vector>

#include "geometry/mesh/mesh.h"
#include "geometry/plan/polygon.h"

namespace hummock::draw {

// Closed lines, m; their winding number is 1 or more just inside the plan view. Exact: the corners
// are the mesh's own. Linear in its triangles.
std::vector<std::vector<geom::Vec2>> plan_shadow(const geom::Mesh& mesh, bool closed);

}  // namespace hummock::draw

// Sheets given a thickness, for printing.
#pragma once

#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock::mesh_export {

// The upright slab over the segment a→b, `thickness` (m, > 0) wide and half that longer at either
// end, so that slabs in a row run into one another. Feet and tops are at a and b; continued in
// line beyond them.
geom::Mesh slab(geom::Vec2 a, geom::Vec2 b, double foot_a, double foot_b, double top_a,
                double top_b, double thickness);

// Both faces half the thickness off the sheet along its vertices' normals, joined at its edges.
// Bends come out thinner by the cosine of half the bend. The sheet must be a surface (at most two
// faces at an edge); one that doubles back on itself gives a mesh that crosses itself, which the
// boolean's check finds.
// The sheet's edges are first moved outwards in its own face by `grow` (m, >= 0), so that sheets
// that only meet in an edge run into one another.
geom::Mesh thickened_sheet(const geom::Mesh& sheet, double thickness, double grow = 0.0);

// The sheet cut where it bends by more than 45°, where more than two faces meet or where
// neighbours are wound against each other: pieces that `thickened_sheet` takes. Thickened they run
// into one another along the cuts.
std::vector<geom::Mesh> smooth_patches(const geom::Mesh& sheet);

}  // namespace hummock::mesh_export

// Sheets given a thickness, for printing.
#pragma once

#include "geometry/mesh.h"

namespace hummock::mesh_export {

// The upright slab over the segment a→b, `thickness` (m, > 0) wide and half that longer at either
// end, so that slabs in a row run into one another. Feet and tops are at a and b; continued in
// line beyond them.
geom::Mesh slab(geom::Vec2 a, geom::Vec2 b, double foot_a, double foot_b, double top_a,
                double top_b, double thickness);

// Both faces half the thickness off the sheet along its vertices' normals, joined at its edges.
// Bends come out thinner by the cosine of half the bend. A sheet that doubles back on itself gives
// a mesh that crosses itself, which the boolean's check finds.
geom::Mesh thickened_sheet(const geom::Mesh& sheet, double thickness);

}  // namespace hummock::mesh_export

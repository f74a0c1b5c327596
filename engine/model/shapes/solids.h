// Closed solids from few numbers: outward normals, every edge with its mate.
#pragma once

#include "geometry/mesh/mesh.h"
#include "geometry/terrain/heightfield.h"

namespace hummock {

// Upright box, its base centred on the origin at z = 0, `size` along x, y, z.
geom::Mesh box_solid(geom::Vec3 size);

// Upright round post as a regular prism of `sides` corners on the circle of `diameter`, from z = lo
// to hi, centred on the z axis. Its volume is (sides/2) sin(2π/sides) (diameter/2)² (hi − lo).
geom::Mesh round_solid(double diameter, double lo, double hi, int sides);

// The same lying along x, centred on the origin.
geom::Mesh lying_round_solid(double diameter, double length, int sides);

// A cone on the circle of `diameter`, from z = lo to its tip at hi.
geom::Mesh cone_solid(double diameter, double lo, double hi, int sides);

// A unit sphere from an icosahedron whose triangles are each cut in four, `steps` times:
// 10·4^steps + 2 corners, all on the sphere. Inscribed: its volume is below 4π/3.
geom::Mesh icosphere(int steps);

// What stands on `outline` between z = lo and hi.
geom::Mesh prism(const geom::Polygon& outline, double lo, double hi);

// The space between a sheet (no overhangs, normals up) shifted by `down` and by `up` (down < up).
geom::Mesh thickened(const geom::Mesh& sheet, double down, double up);

// The ground over `outline` as a sheet. Cells are joined until there are at most `most_cells` under
// the outline's box, so that a wide planting on a fine ground stays small.
geom::Mesh draped(const geom::Heightfield& ground, const geom::Polygon& outline,
                  double most_cells = 40000.0);

}  // namespace hummock

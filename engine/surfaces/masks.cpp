#include "engine/surfaces/masks.h"

#include "geometry/plan/polygon_cells.h"

namespace hummock::surfaces {

Mask mask_of(const geom::Grid& lattice, const geom::Polygon& outline) {
  const geom::Box2 box = geom::bounds(outline);
  Mask out{geom::nodes_about(lattice, box.lo, box.hi), {}};
  const geom::Vec2 corner = lattice.node(out.range.i0, out.range.j0);
  const geom::Grid part{corner.x, corner.y, lattice.cell, out.range.i1 - out.range.i0 + 1,
                        out.range.j1 - out.range.j0 + 1};
  out.in = geom::nodes_inside(part, outline);
  return out;
}

}  // namespace hummock::surfaces

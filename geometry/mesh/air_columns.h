// The room between the ground and a sheet above it, and what solids take of it, column by column.
//
// Both surfaces are linear on triangles; their overlay in plan is cut into convex pieces on which
// every height is linear, and the positive part of a linear function over a convex piece has a
// closed form (cut it where it is zero). So the sums are exact for the triangulated surfaces, to
// rounding (about 1e-12 relative), in time linear in the ground's cells, with no boolean.
//
// What a solid takes: over each column the length of solid between ground g and sheet c is
//   Σ over its faces of ± clamp(z, g, max(g, c)),  + where the face looks up, − down,
// so V = Σ ± ∫ [ max(0, z − g) − max(0, z − max(g, c)) ] dA over the faces' plan views. It holds
// for any closed, outward mesh; where two solids overlap the common part counts twice: unite them
// first.
#pragma once

#include <vector>

#include "geometry/mesh/convex_piece.h"
#include "geometry/mesh/mesh.h"
#include "geometry/plan/plan_boxes.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

struct AirSums {
  double plan_area_m2 = 0.0;  // of the sheet
  double volume_m3 = 0.0;     // ∫ max(0, sheet − ground)
  double gap_m3 = 0.0;        // ∫ (sheet − ground): less where the ground pokes through
  double least_m = 1e300;     // least of sheet − ground, exact; negative where it pokes through
  Vec2 least_at;
};

// `sheet`: normals up, no two triangles over one another in plan. Triangles that stand upright or
// lie off the grid count for nothing.
AirSums air_between(const Heightfield& ground, const Mesh& sheet);

// A sheet as above, made ready for many solids.
class SheetAbove {
 public:
  explicit SheetAbove(const Mesh& sheet);
  struct Triangle {
    PlanTriangle plan;
    Box2 box;
  };
  const std::vector<Triangle>& triangles() const { return triangles_; }
  const PlanBoxes& boxes() const { return boxes_; }

 private:
  std::vector<Triangle> triangles_;
  PlanBoxes boxes_;
};

// Volume of the closed solid above the ground and below the sheet, within the sheet's plan, m³.
// Linear in the solid's faces and what of the sheet and ground lies about it.
double volume_in_air(const Heightfield& ground, const SheetAbove& sheet, const Mesh& solid);
inline double volume_in_air(const Heightfield& ground, const Mesh& sheet, const Mesh& solid) {
  return volume_in_air(ground, SheetAbove(sheet), solid);
}

}  // namespace hummock::geom

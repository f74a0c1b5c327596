// Space: how much room there is.
//
// Areas: plan and true surface of the triangulated ground inside the outline, exact; outdoor area:
// the plan without houses, exact. Usable area, largest circle and rectangle are of ground the
// animal can live on (engine/usable/usable_ground.h; engine/usable/usable_area.h and
// engine/space/free_shapes.h say how far off).
//
// Enclosed air: from the ground up to the ceiling (engine/space/ceiling.h: the roof as built, else
// the surface through the fence tops), less every closed solid in it (engine/space/furniture.h).
// The figure is a sum over columns, exact for the triangulated surfaces whatever the size of the
// ground (geometry/mesh/air_columns.h); only solids that run into one another are first united by
// CGAL. `enclosed_air` builds the same air as one closed solid by CGAL's corefinement, for export
// and drawing, where the ground's mesh is worth it (about 1 s for 200 000 cells); tests hold the
// two together. When a solid cannot be taken off (an object's mesh is open, a union fails) the
// volume is not known and the note says why: it is never guessed. Water in basins is not taken off;
// crowns and plantings neither.
//
// Headroom: ceiling less ground, upright, exact least over the outline; furniture is not
// considered. Negative where ground stands above the fence-top surface.
//
#pragma once

#include <memory>

#include "engine/model/model.h"
#include "geometry/plan/polygon.h"

namespace hummock::space {

struct FreeShapes;

struct Result {
  double plan_area_m2 = 0;
  double surface_area_m2 = 0;
  double usable_area_m2 = 0;   // ground it can live on and comes to from its start
  double out_of_reach_m2 = 0;  // it could live there and does not come there; known to its cells
  double outdoor_area_m2 = 0;  // plan area in no house
  double volume_m3 = 0;        // enclosed air: closed solid, less furniture
  bool volume_known = false;   // false: see `volume_note`
  std::string volume_note;
  double least_headroom_m = 0;  // under the roof or the plane of the fence tops; NaN: no ceiling
  double mean_headroom_m = 0;
  bool roofed = false;
  double roofed_share = 0;      // of the plan area
  double furniture_m3 = 0;      // taken off the air
  geom::Circle largest_circle;  // on ground it can live on, as the rectangle
  geom::RectangleInside largest_rectangle;
  double guest_view_share = 0;  // of the boundary's length: guest_view sections and viewing places
  double boundary_length_m = 0;
  std::shared_ptr<const FreeShapes> shapes;  // of `analyse`, for `with_another_body`
};

Result analyse(const Model& model);
// The same for the same site with another animal, whose ground alone is another: the rest is taken
// from `known`, a result of `analyse` for this site.
Result with_another_body(const Model& model, Result known);

// The enclosed air as a closed solid (outward normals), for export and drawing. Empty when it
// cannot be built; `note`, when given, says why.
geom::Mesh enclosed_air(const Model& model, std::string* note = nullptr);

}  // namespace hummock::space

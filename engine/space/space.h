// Space: how much room there is.
#pragma once

#include "engine/model/model.h"
#include "geometry/polygon.h"

namespace hummock::space {

struct Result {
  double plan_area_m2 = 0;
  double surface_area_m2 = 0;
  double usable_area_m2 = 0;  // slope <= stand_slope, headroom >= body height, not in a solid
  double volume_m3 = 0;       // enclosed air: closed solid, less furniture
  bool volume_known = false;  // false: see `volume_note`
  std::string volume_note;
  double least_headroom_m = 0;  // under the roof or the plane of the fence tops
  double mean_headroom_m = 0;
  bool roofed = false;
  geom::Circle largest_circle;
  geom::RectangleInside largest_rectangle;
  double guest_view_share = 0;  // of the boundary's length
  double boundary_length_m = 0;
};

Result analyse(const Model& model);

// The enclosed air as a closed solid (outward normals), for export and drawing.
geom::Mesh enclosed_air(const Model& model);

}  // namespace hummock::space

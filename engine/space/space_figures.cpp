#include "engine/space/space_json.h"

namespace hummock::space {

const FigureRows& figure_rows() {
  static const FigureRows rows{
      {"space.outdoor_area_m2", "area outdoors", "m²", 1, Better::more,
       "Area of the drawn boundary in plan, without the houses in it."},
      {"space.plan_area_m2", "area in plan", "m²", 1, Better::more,
       "Ground inside the boundary as on a map."},
      {"space.surface_area_m2", "area of the ground's true surface", "m²", 1, Better::more,
       "Ground inside the boundary along its slopes."},
      {"space.usable_area_m2", "ground it can live on", "m²", 1, Better::more,
       "Ground no steeper than it stands on, with its height free above and no solid on it, that "
       "it comes to from its start."},
      {"space.volume_m3", "enclosed air", "m³", 1, Better::more,
       "Air from the ground up to the roof or the fence tops, less the solids in it."},
      {"space.furniture_m3", "solids in the air", "m³", 1, Better::neither,
       "What stones, logs, boxes and houses take off the enclosed air."},
      {"space.least_headroom_m", "least headroom", "m", 2, Better::more,
       "Least upright height between ground and roof or fence tops."},
      {"space.mean_headroom_m", "mean headroom", "m", 2, Better::more,
       "Mean upright height between ground and roof or fence tops."},
      {"space.roofed_share", "share of the yard under a roof", "of 1", 2, Better::neither,
       "Plan area under the roof, of all."},
      {"space.guest_view_share", "share of the boundary given to guests", "of 1", 2, Better::less,
       "Length of sections with guest view and of viewing places, of the whole boundary.",
       "guests"},
      {"space.boundary_length_m", "length of the boundary", "m", 1, Better::neither,
       "Length of the outline in plan."},
      {"space.largest_circle_radius_m", "radius of the largest circle inside", "m", 2, Better::more,
       "Of the largest circle that lies within the outline."},
      {"space.largest_rectangle_length_m", "length of the largest rectangle inside", "m", 2,
       Better::more, "Longer side of the largest rectangle that lies within the outline."},
      {"space.largest_rectangle_width_m", "width of the largest rectangle inside", "m", 2,
       Better::more, "Shorter side of the largest rectangle that lies within the outline."}};
  return rows;
}

}  // namespace hummock::space

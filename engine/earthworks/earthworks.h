// Earthworks: cut and fill against the surveyed ground, and what is too steep to stay.
//
// Cut and fill are the exact volumes between `model.ground` and `model.surveyed` as piecewise flat
// surfaces, prism by prism (geometry/mesh/prism_volume.h): over all the modelled ground, its margin
// outside the boundary too, for earth moved there is moved all the same. Volumes are in place;
// dug earth takes more room (swell of common earth 1.20–1.30, sand 1.10–1.15, from memory) and none
// is counted here. Build the model without snow and scour, or they count as fill and cut.
//
// Too steep: triangles inside the boundary (by their centroid) steeper than the soil holds without
// a wall. Limits: OSHA 29 CFR 1926 Subpart P Appendix B, Table B-1, the steepest allowed side of an
// excavation under 20 ft: type C (sand, loamy sand) 1½:1, 34°; type B (silt loam, sandy loam) 1:1,
// 45°; type A (clay, clay loam) ¾:1, 53°. Soil that was dug or filled is never type A (Appendix A):
// dug clay is taken as type B. Which soil is which type: Appendix A, from memory. These are
// short-term limits for dry soil: fresh fill, rain and feet ask for less. Dry sand
// on dunes stands at 30–34° (from memory). Unknown soil is judged as sand. Water, roots and stones
// are not known.
#pragma once

#include <string>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::earthworks {

struct Result {
  double cut_m3 = 0, fill_m3 = 0, balance_m3 = 0;  // balance = fill − cut (to bring in)
  double cut_area_m2 = 0, fill_area_m2 = 0;
  double deepest_cut_m = 0, highest_fill_m = 0;
  double repose_deg = 0;  // limit used
  std::string repose_source;
  double too_steep_area_m2 = 0;  // plan area
  double steepest_deg = 0;       // of the ground inside the boundary
  geom::Raster change;           // m, + fill − cut
  geom::Raster too_steep;        // slope in degrees where over the limit, else NaN
};
Result analyse(const Model& model);

// The steepest angle (rad) a soil is taken to hold, and from where.
// The ground as built, without the snow or drifted sand that lies on it: no soil, no fill.
geom::Heightfield bare_ground(const Model& model);

struct Repose {
  double angle = 0;
  std::string source;
};
Repose repose_of(Soil soil);

}  // namespace hummock::earthworks

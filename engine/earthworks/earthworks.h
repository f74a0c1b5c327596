// Earthworks: cut and fill against the surveyed ground, exact for the triangulation (prisms).
#pragma once

#include <string>

#include "engine/model/model.h"
#include "geometry/grid.h"

namespace hummock::earthworks {

struct Result {
  double cut_m3 = 0, fill_m3 = 0, balance_m3 = 0;  // balance = fill − cut (to bring in)
  double cut_area_m2 = 0, fill_area_m2 = 0;
  double deepest_cut_m = 0, highest_fill_m = 0;
  double repose_deg = 0;  // limit used
  std::string repose_source;
  double too_steep_area_m2 = 0;
  geom::Raster change;     // m, + fill − cut
  geom::Raster too_steep;  // slope in degrees where over the limit, else NaN
};
Result analyse(const Model& model);

}  // namespace hummock::earthworks

// Water: drawn basins, and where rain would pond. Depression filling: priority-flood, Barnes et al.
// 2014 (Computers & Geosciences 62:117-127).
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/grid.h"

namespace hummock::water {

struct BasinRow {
  std::string name;
  double level_m = 0, deepest_m = 0, area_m2 = 0, volume_m3 = 0;
  double steepest_side_deg = 0;  // all round, where it could climb out
  double easiest_side_deg = 0;
  bool can_climb_out = false;         // some side no steeper than stand_slope
  double wading_route_deepest_m = 0;  // shallowest way across
  bool deeper_than_wade = false;
};
struct Pond {
  Vec2 at;  // deepest point
  double depth_m = 0, area_m2 = 0, volume_m3 = 0;
  bool drained = false;
};
struct Result {
  double deepest_m = 0;
  double ponding_m = 0;  // deepest rain pond outside drawn water
  double ponding_area_m2 = 0, ponding_volume_m3 = 0;
  std::vector<BasinRow> basins;
  std::vector<Pond> ponds;  // deepest first
  geom::Raster pond_depth;  // m, 0 where none
};
Result analyse(const Model& model);

}  // namespace hummock::water

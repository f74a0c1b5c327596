// Water: drawn basins, and where rain would pond.
//
// Basins. Depth, area and volume are exact for the ground's triangulation cut out by the drawn
// outline, below the drawn level. The rim is the level at which the basin would run over on the
// ground as modelled; `holds_water` is false when it lies lower than the drawn level.
//
// A water drawn by its level ends where the ground rises above it or something holds it up; where
// its outline ends sooner the figures are of what is drawn, and no side is taken to be climbed.
//
// Sides. At stations all round the shore (at most about a cell apart) the ground is followed
// straight out of the water: from where it is as deep as the animal's body is high (or 3 m in) to
// one body length beyond the shore; the station's side is the steepest rise on that way. The
// animal can climb out where some side is no steeper than its `stand_slope`, lies inside the
// boundary and is neither stood on nor shut off (way_out.h); of a basin wholly outside every side
// counts. Logs, ramps and stones in the water are no way out, nor is a surface it may climb: it may
// do better there. Only the shore is asked: a ring of blocks out in deep water is not told.
//
// Wading. The deepest point of the shallowest way across inside the boundary (a minimax path over
// the nodes there: round the end of a moat outside the fence is no way). Across is
// from one piece of dry ground to another where the water parts the yard (a moat, an island), water
// of other basins counting as dry only if it parts nothing itself; else, since one can go round, it
// is from one long shore to the other within the middle half of the basin's length.
//
// Ponds. Rain that soaks in nowhere fills every hollow to its lowest way out (priority-flood,
// Barnes et al. 2014, Computers & Geosciences 62:117-127; geometry/terrain/depression_fill.h). It
// leaves over the edge of the modelled ground. Mesh fences let it through; solid and glass ones
// hold it up to their top, except where the foot stands more than 1 mm off the ground (a stepped
// panel's wedge, the gap under a gate), at posts when there is a joint gap of 1 mm or more, and at
// drains before which nothing stands (clear_drain.h), above their sill. Houses and closed things
// hold it up (standing_things.h); walls of vestibules, dens and soil do not. Drawn water stands at
// its level before the rain; with a drain it stays there. Area and volume are those inside the
// boundary and outside drawn water (triangles counted by their centroid).
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::water {

// Shallower ponds are not listed; they are in the totals and the raster.
inline constexpr double kLeastPond = 0.005;  // m; common practice, no source

struct BasinRow {
  std::string name;
  double level_m = 0, deepest_m = 0, area_m2 = 0, volume_m3 = 0;
  double steepest_side_deg = 0;  // all round, where it could climb out
  double easiest_side_deg = 0;
  bool can_climb_out = false;         // some side no steeper than stand_slope
  double wading_route_deepest_m = 0;  // shallowest way across
  bool deeper_than_wade = false;
  bool parts_the_yard = false;  // the way across joins two pieces of dry ground
  double rim_m = 0;             // level at which it runs over
  bool holds_water = true;      // rim no lower than the level (within a centimetre)
  bool lies_beyond = false;     // the ground goes on below its level where its outline ends
  Vec2 deepest_at;
  Vec2 easiest_at;  // shore
};
struct Pond {
  Vec2 at;  // deepest point
  double depth_m = 0, area_m2 = 0, volume_m3 = 0;
  bool drained = false;  // would stand there without the drains, and does not with them
};
struct Result {
  double deepest_m = 0;
  double ponding_m = 0;  // deepest rain pond outside drawn water
  double ponding_area_m2 = 0, ponding_volume_m3 = 0;
  std::vector<BasinRow> basins;
  std::vector<Pond> ponds;               // deepest first; the drained ones after those that stand
  geom::Raster pond_depth;               // m, 0 where none
  std::vector<std::string> shut_drains;  // by name: something stands before them (clear_drain.h)
};
Result analyse(const Model& model);

}  // namespace hummock::water

// Water basins dug into the ground.
//
// A [[water]] with a depth is dug: its surface lies at the lowest ground along its outline (the rim
// over which it would spill), its bed `depth` below that, and its sides fall from the water's edge
// at `side_slope`. Ground inside that stands higher is cut away, ground already lower is left.
// Where the rim is higher than the water a bank stands one cell wide. A [[water]] with a level
// fills the ground as it is.
#pragma once

#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

// The lowest ground along the outline, m.
double lowest_rim(const geom::Heightfield& ground, const Polygon& outline);

// Digs `water`'s basin; does nothing when it gives a level.
void dig_basin(geom::Heightfield& ground, const Water& water);

// Is its basin laid at nodes a cell (m) apart otherwise than drawn, by what a tunnel can gain from?
bool cut_coarsely(const Water& water, double cell);

}  // namespace hummock::ground

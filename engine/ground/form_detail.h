// What of drawn forms and basins is finer than the cell, and so is not on the ground.
//
// Forms are evaluated at the nodes (forms.h). A mound, hollow or ridge is compared with its own
// closed form between them: more than kLostDetail (lost_detail.h) is detail lost. A basin is cut at
// the nodes too: a strip between its edge and the boundary that is narrower than a cell may be dry
// ground as drawn and water on the grid, or the other way round; and a side whose run is less than
// a cell, or a basin less than three cells across, is laid flatter and shallower than drawn, so
// that a tunnel that begins or ends there comes out too long. The face of a bench that is drawn
// narrower than a cell lies over a cell: the steepest slope rests on that.
#pragma once

#include <vector>

#include "engine/site/site.h"
#include "engine/site/unseen.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

// `grid` is the ground's; `origin` added to local coordinates gives the file's.
std::vector<Unseen> unseen_forms(const Site& site, const geom::Grid& grid, Vec2 origin);
std::vector<Unseen> unseen_strips(const Site& site, const geom::Grid& grid);
std::vector<Unseen> unseen_basins(const Site& site, const geom::Grid& grid);

}  // namespace hummock::ground

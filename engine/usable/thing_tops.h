// Where an animal may stand on a thing drawn on the ground: decks, logs, boulders, boxes.
#pragma once

#include <vector>

#include "engine/usable/usable_ground.h"
#include "geometry/plan/grid.h"

namespace hummock::usable {

// For each node the height of the highest such place straight above it, NaN without one: faces of
// objects that look up no steeper than stand_slope (any slope of a thing that is scrambled up) with
// the animal's crouch clear above them. Crowns, fences and roofs are none.
std::vector<double> thing_tops(const Model& model, const UsableGround& ground,
                               const geom::Grid& grid);

}  // namespace hummock::usable

// What of the boundary holds water back, as crossings of the ground's grid.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/barrier/walk.h"
#include "geometry/terrain/depression_fill.h"

namespace hummock::water {

// What of the barrier holds water back. Houses and vestibules are not counted (water.h).
barrier::Look look(const barrier::Stretch& stretch);

// Panels and gates, in the order of the fence: those that are walked.
std::vector<barrier::Stretch> walls_in_the_way(const Model& model);

enum class Drains { none, clear, all };  // clear: those before which nothing stands

// One for every edge of the triangulation that passes a solid or glass fence, at the level water
// must reach there (see water.h). `inside` is the mask of nodes inside the outline: an edge passes
// the fence when its ends differ, so no water slips through between two panels.
std::vector<geom::Crossing> solid_walls(const Model& model, const std::vector<std::uint8_t>& inside,
                                        Drains drains);

}  // namespace hummock::water

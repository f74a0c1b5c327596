// How far each node of a grid is from the nearest marked one.
//
// The exact Euclidean distance transform: along columns by counting, then along rows by lower
// envelopes of parabolas (Felzenszwalb & Huttenlocher 2012, Theory of Computing 8:415-428): time
// linear in the nodes.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::geom {

enum class Beyond {
  marked,   // the grid is ringed by marked nodes one cell outside it
  unmarked  // nothing is known outside the grid, nothing is there
};

// Metres, one a node; infinite where nothing is marked. `marked`: 0 or not, one a node.
std::vector<double> distance_to_marked(const Grid& grid, const std::vector<std::uint8_t>& marked,
                                       Beyond beyond);

}  // namespace hummock::geom

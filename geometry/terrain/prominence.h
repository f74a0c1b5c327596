// Rises of a surface given at grid nodes, with their prominence.
//
// Neighbours are the six that share an edge in the triangulation of geometry/terrain/heightfield.h,
// so a pass between two tops is found exactly where the surface has it. Each node belongs to the
// top that steepest ascent over nodes leads to; where two tops' basins touch, the edge between them
// is a way across at the height of its lower end. Taken from the highest way down and joined with
// union-find, each way ends the lower of the two tops it joins: its prominence is its height above
// that pass (the merge tree of superlevel sets; Edelsbrunner, Letscher & Zomorodian 2002, Discrete
// Comput. Geom. 28:511–533, there as persistence). The way to a top by ascent never goes below the
// node, so basins and ways hold the whole tree.
//
// What lies outside the chosen nodes counts as higher ground: a basin that reaches the border of
// the chosen region has a way out there. So a rise is what stands above every way out, a tilted
// plane has none, and a mound cut by the border counts by what stands above its foot on the border.
// A top on the border itself is no rise. Hollows are the same of the surface upside down: their
// prominence is the depth of water that would stand in them. The border is the chosen nodes with a
// neighbour that is not, so a rise that runs out through the border is short by at most the slope
// there times the cell's diagonal, never more than true. Equal heights are taken in the grid's
// order, so a plateau is one rise at its first node. Linear in the nodes but for sorting the ways
// between basins.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::geom {

struct Rise {
  int i = 0, j = 0;         // node of the top (bottom)
  double prominence = 0.0;  // m, > 0
};

enum class Way { up, down };  // rises or hollows

// `z` and `chosen`: one a node. Those of at least `least` m (> 0), greatest first, ties in the
// grid's order.
std::vector<Rise> rises(const Grid& grid, const std::vector<double>& z,
                        const std::vector<std::uint8_t>& chosen, double least, Way way = Way::up);

}  // namespace hummock::geom

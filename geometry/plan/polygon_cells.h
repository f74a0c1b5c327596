// Which nodes and cells of a grid lie in a polygon, in time linear in the cells.
//
// Rows are scanned once: the crossings of one horizontal line with the polygon's edges are sorted
// and filled between pairs (even-odd). A node exactly on an edge may fall either way; what needs
// the edge exactly asks `geom::contains`.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/plan/polygon.h"

namespace hummock::geom {

// 1 for every node inside the polygon, else 0; one a node in the grid's order. Lines are shifted
// north by 1e-9 of a cell so that polygons drawn along grid lines take their southern and western
// rows and leave the northern and eastern ones: each node of a tiling belongs to one tile.
std::vector<std::uint8_t> nodes_inside(const Grid& grid, const Polygon& polygon);

// How a cell, the square between nodes (i,j) and (i+1,j+1), meets the polygon.
enum class Cover : std::uint8_t { none, part, full };

// One a cell, index j·(nx−1) + i. `part` is conservative: every cell whose closed square an edge
// touches (within 1e-9 of a cell); `none` and `full` are certain. Needs at least 2 × 2 nodes.
std::vector<Cover> cell_cover(const Grid& grid, const Polygon& polygon);

}  // namespace hummock::geom

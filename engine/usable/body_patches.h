// Which of the nodes an animal could stand on belong to patches its body fits.
#pragma once

#include <cstdint>
#include <utility>
#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/vec.h"

namespace hummock::usable {

using Offset = std::pair<int, int>;

// The nodes a rectangle about a node covers, for each of 12 directions it may lie in (sampled every
// half cell).
std::vector<std::vector<Offset>> lying_shapes(double cell, double length, double width);

// `standing`: 1 for nodes it could stand on. 1 is left for those in patches its body fits:
//   - it moves as a disc of its width: where the disc's middle can be, no node it cannot stand on
//   is
//     nearer than half its width, obstacles reaching on average half a cell beyond their nodes;
//   - such middles joined along x and y are a patch if a rectangle of length × width about one of
//     them covers standing nodes only;
//   - a patch's ground is what lies within √2 of that half width of its middles, so that a square
//     corner belongs to it and a slot narrower than the animal does not.
// Known to a cell: a slot is let through or closed when its width is within a cell of the body's.
std::vector<std::uint8_t> body_patches(const geom::Grid& grid,
                                       const std::vector<std::uint8_t>& standing, double length,
                                       double width);

}  // namespace hummock::usable

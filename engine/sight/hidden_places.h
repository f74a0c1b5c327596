// Hidden nodes as connected places, and whether the animal can lie in them.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/sight/sight.h"

namespace hummock::sight {

// Nodes with `hidden` 1, joined to those one step along x or y, on a grid whose nodes each stand
// for cell². Largest first. An animal of `length` × `width` can lie where a rectangle of that size,
// in one of 12 directions about a node, covers hidden nodes only (sampled every half cell).
std::vector<HiddenPlace> hidden_places(const geom::Grid& grid,
                                       const std::vector<std::uint8_t>& hidden, double length,
                                       double width);

}  // namespace hummock::sight

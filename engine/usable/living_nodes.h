// The two answers of usable_ground.h for every node of a grid, with the patches a body fits.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/usable/usable_ground.h"
#include "geometry/plan/grid.h"

namespace hummock::usable {

struct Nodes {
  geom::Grid grid;
  std::vector<std::uint8_t> inside;  // within the boundary (on its line too)
  std::vector<std::uint8_t> stand;   // of those: can live, but for the patch
  std::vector<std::uint8_t> live;    // of those: can live, and is the animal's own
  std::vector<std::uint8_t> houses;  // 1 for those it goes into, and out again (own_ground.h)
  std::vector<std::uint8_t> beyond;  // could live there, and does not come there (own_ground.h)
};

// On the ground's own grid by default, slopes by central differences (one-sided at the rim); each
// node stands for a cell, so an area is off by at most its outline's length times the cell, half of
// that on average nothing.
Nodes find_nodes(const Model& model, const UsableGround& ground);
Nodes find_nodes(const Model& model, const UsableGround& ground, const geom::Grid& grid);

}  // namespace hummock::usable

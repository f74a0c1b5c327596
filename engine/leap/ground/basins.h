// The basins of a yard, for walls_between.h.
#pragma once

#include <utility>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::leap {

// What stands between two nodes: the basins they are of, and up to which height it stands.
struct Saddle {
  double height = 0.0;  // m above datum
  int a = 0, b = 0;
  geom::Vec2 from, to;  // the nodes
};

struct Basins {
  geom::Grid lattice;
  std::vector<char> near;  // of each node: a thing stands about it
  std::vector<int> of;     // of each node
  int count = 0;
  std::vector<Saddle> saddles;  // rising
};

// `top`: m above datum, up to which it is asked. No nodes where there would be more than `most`.
Basins find_basins(const Model& model, double step, double top, std::size_t most);

// Where a ray over the lattice passes above the ground: no lower than the first of a saddle's.
inline constexpr double kFootOfRays = 0.5;  // steps; numeric

}  // namespace hummock::leap

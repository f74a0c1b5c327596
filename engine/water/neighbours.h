// The nodes that a node of the ground's triangulation is joined to: along both axes and along the
// diagonal its cells are cut by (geometry/terrain).
#pragma once

#include <array>

namespace hummock::water {

struct Step {
  int di, dj;
};
inline constexpr std::array<Step, 6> kSteps{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {-1, 1}, {1, -1}}};

}  // namespace hummock::water

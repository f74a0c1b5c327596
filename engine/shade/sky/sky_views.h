// The sky view of a yard's nodes, worked out once for each state of the leaves and handed on.
#pragma once

#include <vector>

#include "geometry/plan/grid.h"

namespace hummock::shade {

struct SkyViews {
  struct State {
    std::vector<bool> bare;       // of each caster
    std::vector<double> of_node;  // share of the sky's light (sky_view.h)
  };
  geom::Grid grid;
  std::vector<State> states;  // those met so far
};

}  // namespace hummock::shade

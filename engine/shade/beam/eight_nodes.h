// Eight nodes, or eight runs of nodes, against a side or the box of a shadow. All by reference: a
// wide value would be passed in other registers by the wide and the narrow code.
#pragma once

#include <bit>
#include <cstdint>

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/shadow_nodes.h"

namespace hummock::shade {

// Adds to `out` (-1) the nodes that lie outside.
[[gnu::always_inline]] inline void add_outside(const ShadowSide& s, const Floats& qx,
                                               const Floats& qy, Flags& out) {
  const Floats e = (qx - s.ax) * s.dy - (qy - s.ay) * s.dx;
  out |= (e < 0.0F) ^ -s.negative;
}

// The boxes of kWide runs of nodes from the r-th on.
struct RunBoxes {
  Floats x0, x1, y0, y1;
};
[[gnu::always_inline]] inline void load_runs(const ShadowNodes& n, std::size_t r, RunBoxes& boxes) {
  load(&n.run_x0[r], boxes.x0);
  load(&n.run_x1[r], boxes.x1);
  load(&n.run_y0[r], boxes.y0);
  load(&n.run_y1[r], boxes.y1);
}

// A bit for each run of nodes whose box meets the shape's (x0, x1, y0, y1).
template <class Shape>
[[gnu::always_inline]] inline std::uint32_t runs_meeting(const ShadowNodes& n, const Shape& shape) {
  static_assert(ShadowNodes::kRun == kWide);
  std::uint32_t runs = 0;
  for (std::size_t r = 0; r < ShadowNodes::kRuns; r += kWide) {
    RunBoxes b;
    load_runs(n, r, b);
    const Flags meet =
        (b.x1 >= shape.x0) & (b.x0 <= shape.x1) & (b.y1 >= shape.y0) & (b.y0 <= shape.y1);
    runs |= bits_of(meet) << r;
  }
  return runs;
}

// Calls work(k) for each bit k that is set, rising.
template <class Work>
[[gnu::always_inline]] inline void for_set(std::uint32_t bits, const Work& work) {
  for (; bits != 0; bits &= bits - 1) work(static_cast<std::size_t>(std::countr_zero(bits)));
}

}  // namespace hummock::shade

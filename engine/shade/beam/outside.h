// Eight nodes against a side of a shadow.
#pragma once

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/scan_triangle.h"

namespace hummock::shade {

// Adds to `out` (-1) the nodes that lie outside. By reference: a wide value would be passed in
// other registers by the wide and the narrow code.
[[gnu::always_inline]] inline void add_outside(const ShadowSide& s, const Floats& qx,
                                               const Floats& qy, Flags& out) {
  const Floats e = (qx - s.ax) * s.dy - (qy - s.ay) * s.dx;
  out |= (e < 0.0F) ^ -s.negative;
}

}  // namespace hummock::shade

// Which nodes of the ground the ground itself shades, by one sweep along the sun's azimuth.
//
// Lines one cell apart run over the grid in the sun's azimuth, from the side of the sun. Along a
// line an upper bound of the shadow's height is carried on: it falls by the sun's slope and is
// raised by whatever the line meets, at every place where it crosses a row, a column or a diagonal
// (exact for the triangulated surface), and by as much as the ground can bulge between that line
// and its neighbours (a quarter of its kinks there). Between two lines the shadow is then no higher
// than the straight line between their bounds. A lower bound is carried for the strip between two
// lines by the lowest the ground has across it. A node's own way over the last cell is taken
// exactly. So "lit" and "dark" are certain (but for 0.1 mm of rounding); what lies between the
// bounds is left open, for a ray to decide. Beyond the sides of the grid the upper bound takes the
// ground to go on level, the lower bound to end.
//
// Cost: about forty operations a node, whatever the relief and the height of the sun.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/shade/beam/sun_ray.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::shade {

enum class GroundShade : std::uint8_t { lit, dark, open };

// One answer a node, in the ground's order, or in columns first when `transposed`.
struct GroundStatus {
  bool transposed = false;
  std::size_t stride = 0;
  std::vector<GroundShade> nodes;
  GroundShade at(int i, int j) const {
    return transposed ? nodes[static_cast<std::size_t>(i) * stride + static_cast<std::size_t>(j)]
                      : nodes[static_cast<std::size_t>(j) * stride + static_cast<std::size_t>(i)];
  }
};

class GroundSweep {
 public:
  explicit GroundSweep(const geom::Heightfield& ground);
  // `sun` must be up.
  GroundStatus status(const SunRay& sun) const;

 private:
  struct Heights {
    int nx = 0, ny = 0;
    std::size_t stride = 0;
    std::vector<float> z;  // rows with kPad nodes of nothing on either side
    const float* row(int r) const { return z.data() + static_cast<std::size_t>(r) * stride; }
  };
  Heights straight_, turned_;
  double cell_ = 1.0;
};

}  // namespace hummock::shade

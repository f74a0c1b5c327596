// A tile's nodes and the sides of shadows over them, in shadow coordinates
// (engine/shade/beam/fast_beam.h).
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "engine/shade/beam/ground_tiles.h"
#include "engine/shade/beam/sun_ray.h"

namespace hummock::shade {

// The nodes of a tile in shadow coordinates for one sun, and their heights, relative to `ref`.
struct ShadowNodes {
  alignas(32) std::array<float, kTileNodes> qx, qy, z;
  // Range of each run of eight nodes.
  static constexpr std::size_t kRun = 8, kRuns = kTileNodes / kRun;
  static_assert(kRuns <= 32);  // a bit each where they are told apart
  alignas(32) std::array<float, kRuns> run_x0, run_x1, run_y0, run_y1;
  float x0, x1, y0, y1;
  float z_top;  // greatest of the heights
};
void shadow_nodes(const Tile& tile, const SunRay& sun, Vec3 ref, ShadowNodes& nodes);

// A point of a part: shadow coordinates and height, relative to the same `ref`.
struct ShadowPoint {
  float x, y, z;
};

// A side of a shadow, from its lower end by x, then y, whoever asks: so a side that two shapes
// share parts them without gap or overlap. A node lies inside when (E < 0) == (negative != 0),
// E = (qx − ax)·dy − (qy − ay)·dx.
struct ShadowSide {
  float ax = 0, ay = 0, dx = 0, dy = 0;
  int negative = 0;
};
inline ShadowSide shadow_side(ShadowPoint a, ShadowPoint b, bool left_inside) {
  const bool swapped = b.x < a.x || (b.x == a.x && b.y < a.y);
  if (swapped) std::swap(a, b);
  return {a.x, a.y, b.x - a.x, b.y - a.y, left_inside != swapped ? 1 : 0};
}

enum class Touch { none, part, whole };  // of the tile's nodes, by certain bounds

// Of a side: is the box of all nodes certainly inside, certainly outside, or neither?
inline Touch beside(const ShadowNodes& n, const ShadowSide& s) {
  const float xa = (n.x0 - s.ax) * s.dy, xb = (n.x1 - s.ax) * s.dy;
  const float ya = (n.y0 - s.ay) * s.dx, yb = (n.y1 - s.ay) * s.dx;
  const float lo = std::min(xa, xb) - std::max(ya, yb);
  const float hi = std::max(xa, xb) - std::min(ya, yb);
  // A little slack for the rounding of E at the nodes.
  const float slack =
      1e-6F * (std::max(std::abs(xa), std::abs(xb)) + std::max(std::abs(ya), std::abs(yb)));
  if (s.negative != 0) {
    if (lo - slack > 0.0F) return Touch::none;
    return hi + slack < 0.0F ? Touch::whole : Touch::part;
  }
  if (hi + slack < 0.0F) return Touch::none;
  return lo - slack > 0.0F ? Touch::whole : Touch::part;
}

}  // namespace hummock::shade

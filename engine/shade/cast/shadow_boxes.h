// Boxes about the shadows of many things, asked eight at a time which of them may meet a tile.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/shade/beam/eight_floats.h"
#include "engine/shade/beam/sun_ray.h"

namespace hummock::shade {

// In shadow coordinates relative to one point: along x and y, and along the level axis square to
// the sun's way (a low sun's shadows are narrow bands aslant to x and y); the highest that casts.
struct ShadowBox {
  float x0 = 1e30F, x1 = -1e30F, y0 = 1e30F, y1 = -1e30F, across0 = 1e30F, across1 = -1e30F;
  float z_high = -1e30F;
};

// What nodes may be shaded by: shadows that meet their box and rise above the lowest of them.
struct ShadedBox {
  ShadowBox box;
  float lowest = 0;
};
// Of all nodes in `box`, taken from `ref`, with a little to spare; one within another's is within
// its ShadedBox too. `across`: the unit axis, nothing at the zenith.
ShadedBox shaded_box(const geom::Box3& box, Vec3 ref, const SunRay& sun, Vec2 across);

inline bool may_meet(const ShadowBox& b, const ShadedBox& n) {
  return b.x0 <= n.box.x1 && b.x1 >= n.box.x0 && b.y0 <= n.box.y1 && b.y1 >= n.box.y0 &&
         b.across0 <= n.box.across1 && b.across1 >= n.box.across0 && b.z_high >= n.lowest;
}

// Member by member.
using EightBoxes = std::array<std::array<float, kWide>, 7>;
// About all eight.
ShadowBox box_of(const EightBoxes& boxes);

class ShadowBoxes {
 public:
  void clear();
  void add(const ShadowBox& box);
  bool empty() const { return count_ == 0; }
  // Those that may_meet() the nodes, rising; they stand in `room`.
  std::span<const std::uint32_t> meeting(const ShadedBox& nodes,
                                         std::vector<std::uint32_t>& room) const;

 private:
  std::size_t count_ = 0;
  std::vector<EightBoxes> eights_;  // those not yet added meet nothing
};

}  // namespace hummock::shade

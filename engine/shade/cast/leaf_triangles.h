// Triangles of what light is followed through, eight at a time: set up at a sun once for all tiles
// near each other, then scanned over a tile's nodes.
//
// A line's length inside a closed volume is the sum of the heights, above its start, of the
// triangles that look to the sun over it, less those of the others, times the line's slant. Sides
// are as all shadows' (engine/shade/beam/shadow_nodes.h), so ways in and out pair up.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "engine/shade/cast/eight_corners.h"
#include "engine/shade/cast/shadow_boxes.h"

namespace hummock::shade {

// Eight triangles member by member: box, sides, and over shadow coordinates the height
// z0 + zx (qx − px) + zy (qy − py), between z_low and z_high. Those without area in plan shade
// nothing, and their box meets nothing.
struct EightLeaves {
  EightNumbers x0, x1, y0, y1, z_low, z_high;
  std::array<EightSides, 3> side;
  EightNumbers z0, zx, zy, px, py;
  EightNumbers sign;  // 1 of one that looks to the sun, −1 of another
};

// What of a tile's runs of nodes is worth asking.
struct LeafRuns {
  alignas(32) std::array<float, ShadowNodes::kRuns> lowest;  // of each run's nodes
  std::uint32_t lit = 0;                                     // a bit for each that has any light
};
void set_lowest(const ShadowNodes& nodes, LeafRuns& runs);

class LeafTriangles {
 public:
  void clear();
  // `nodes`: all that are to be asked for; eights that none of them can lie under are left out.
  void add(const ShadowPoint& a, const ShadowPoint& b, const ShadowPoint& c,
           const ShadedBox& nodes);
  // The last eight are whole: what is added next stands in others.
  void close(const ShadedBox& nodes);
  std::uint32_t eights() const { return static_cast<std::uint32_t>(eights_.size()); }
  // Those eights that may_meet() the nodes, rising; they stand in `room`.
  std::span<const std::uint32_t> meeting(const ShadedBox& nodes,
                                         std::vector<std::uint32_t>& room) const {
    return boxes_.meeting(nodes, room);
  }
  // At lit nodes under a triangle of the kth eight: out += sign × height of the triangle above the
  // node (if above), in their order. Does any touch the nodes' box, by its own and by its sides?
  bool scan(std::uint32_t k, const ShadowNodes& nodes, const LeafRuns& runs, float* out) const;

  using Corners = std::array<EightCorners, 3>;

 private:
  Corners corners_{};
  std::size_t held_ = 0;  // of corners_
  std::vector<EightLeaves> eights_;
  ShadowBoxes boxes_;  // of eights_
};

}  // namespace hummock::shade

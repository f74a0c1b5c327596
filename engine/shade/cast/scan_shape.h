// A flat or solid shape's shadow over a tile's nodes, in shadow coordinates
// (engine/shade/beam/shadow_nodes.h).
#pragma once

#include <cstdint>
#include <vector>

#include "engine/shade/beam/shadow_nodes.h"
#include "engine/shade/cast/eight_corners.h"
#include "engine/shade/cast/shadow_boxes.h"

namespace hummock::shade {

// Height of a plane over shadow coordinates.
struct ShadowPlane {
  float z0 = 0, zx = 0, zy = 0;
  float at(float x, float y) const { return z0 + zx * x + zy * y; }
};

// Some sides and planes of a shape, those that a tile cannot do without. A node is in its shadow
// when it is inside all sides and below all planes.
struct ShadowShape {
  static constexpr std::size_t kMost = 72;
  std::size_t sides = 0, planes = 0;
  std::array<ShadowSide, kMost> side{};
  std::array<const ShadowPlane*, kMost> plane{};
  float z_low = 0, z_high = 0;  // planes count between these
  // Curtain: where its foot is not straight, (way along, height); a node's line meets it at
  // way + way_x·qx + way_y·qy, at the height of the one plane.
  const std::vector<std::array<float, 2>>* foot = nullptr;
  float way = 0, way_x = 0, way_y = 0;
};

// Sets those of a shape's sides, eight by eight, that the nodes cannot do without. False where all
// nodes certainly lie outside of one.
bool set_sides_asked(const ShadowNodes& nodes, const EightSides* sides, std::size_t count,
                     ShadowShape& shape);

// A bit for each run of the nodes whose box meets that of a shadow.
std::uint32_t runs_near(const ShadowNodes& nodes, const ShadowBox& box);

// At nodes in the shadow: out ·= factor. `near`: runs_near() of its box. A bit for each run that it
// leaves without light.
std::uint32_t scan_shape(const ShadowNodes& nodes, const ShadowShape& shape, std::uint32_t near,
                         float factor, float* out);

}  // namespace hummock::shade

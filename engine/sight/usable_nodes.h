// The ground an animal may be seen on, node by node.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/model/model.h"

namespace hummock::sight {

enum Use : std::uint8_t {
  kNotUsable = 0,
  kUsable = 1,
  kOnTheLine = 2  // usable, and exactly on the boundary's line: in its sheet, see `target_place`
};

// For each node of the model's ground whether the animal can live on it (engine/usable, "can live")
// and it is a multiple of `stride` along both axes.
std::vector<std::uint8_t> usable_nodes(const Model& model, int stride);

// How high above the ground its eyes are, m.
double eyes_up(const Model& model);

// Where the animal is looked for: at the node, or a centimetre inside if that is on the boundary's
// line, since no animal has its head in the fence and a ray along a fence's plane says nothing.
Vec2 target_place(const Model& model, Vec2 node, std::uint8_t use);

}  // namespace hummock::sight

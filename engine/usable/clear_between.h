// Does something thin stand between two neighbouring nodes, where neither is in it?
#pragma once

#include <cstdint>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::usable {

// No: by level rays from p to q over the ground at four heights up to `height` (m). Bars and rails
// between those heights are not seen, nor is anything in a model without a scene.
bool clear_between(const Model& model, Vec2 p, Vec2 q, double height);

// 1 for nodes within a cell of the box about a thing that blocks a body, which may stand between
// two of them.
std::vector<std::uint8_t> beside_things(const Model& model, const geom::Grid& grid);

}  // namespace hummock::usable

// Does something thin stand between two neighbouring nodes, where neither is in it?
#pragma once

#include "engine/model/model.h"

namespace hummock::usable {

// No: by level rays from p to q over the ground at four heights up to `height` (m). Bars and rails
// between those heights are not seen, nor is anything in a model without a scene.
bool clear_between(const Model& model, Vec2 p, Vec2 q, double height);

}  // namespace hummock::usable

// Everything that stops a body, for rays.
#pragma once

#include "engine/model/model.h"

namespace hummock {

// The ground (id kGroundId) and every part with `blocks_body` (id = its index). For build_model,
// and for who changes a built model's parts: set `body_scene` to it again.
std::shared_ptr<const geom::RayScene> body_scene_of(const Model& model);

}  // namespace hummock

// How near the animal comes to a heat lamp.
#pragma once

#include "engine/usable/usable_ground.h"

namespace hummock::stations {

// m, 0..kLampSought; see stations.h.
double lamp_clearance(const Model& model, const usable::UsableGround& ground, Vec3 lamp);

}  // namespace hummock::stations

// How near the animal comes to a heat lamp.
#pragma once

#include "engine/usable/usable_ground.h"

namespace hummock::stations {

struct LampWay {
  double clearance_m = 0.0;  // 0..kLampSought
  bool leapt_at = false;
};
// See stations.h.
LampWay lamp_way(const Model& model, const usable::UsableGround& ground, Vec3 lamp);

}  // namespace hummock::stations

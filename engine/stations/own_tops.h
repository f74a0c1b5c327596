// Tops of things that an animal gets onto.
#pragma once

#include <vector>

#include "engine/usable/living_nodes.h"
#include "engine/usable/usable_ground.h"

namespace hummock::stations {

// For each node of the ground's grid the height of the top over it, NaN where there is none that
// the animal is on: places of thing_tops.h joined where they rise no steeper than it stands, which
// hold its body lying (body_patches.h) and which it comes to from its own ground by leaps and
// climbs, one after another, and comes back from.
std::vector<double> own_tops(const Model& model, const usable::UsableGround& ground,
                             const usable::Nodes& nodes);

}  // namespace hummock::stations

// Openings whose size the site file gives: meshes, gate sides, joints, drains, vents.
#pragma once

#include <vector>

#include "engine/openings/openings.h"

namespace hummock::openings {

// By which a panel ends short of its post on either side, m.
double half_joint(const Model& model, const Panel& panel);

void add_meshes(const Model& model, std::vector<Opening>& list);
void add_gate_sides(const Model& model, std::vector<Opening>& list);
void add_joints(const Model& model, std::vector<Opening>& list);
void add_drains(const Model& model, std::vector<Opening>& list);
void add_vents(const Model& model, std::vector<Opening>& list);

}  // namespace hummock::openings

// The map layers of the analyses, each computed for itself alone; a row of the list names its own.
#pragma once

#include <vector>

#include "engine/check/analyses.h"

namespace hummock {

std::vector<Layer> relief_layers();
std::vector<Layer> leap_layers();
std::vector<Layer> shade_layers();
std::vector<Layer> sight_layers();
std::vector<Layer> water_layers();
std::vector<Layer> earthworks_layers();
std::vector<Layer> burrow_layers();

// Every layer, in the order of the analyses.
const std::vector<const Layer*>& all_layers();

}  // namespace hummock

// The sectors round the nodes of a buried graph, and the ground's surface cut at its nodes.
#pragma once

#include "engine/dig/section/buried_graph.h"

namespace hummock::dig {

// Fills in graph.surface and graph.sectors from its nodes.
void add_surface_and_sectors(BuriedGraph& graph, const GroundLine& ground);

}  // namespace hummock::dig

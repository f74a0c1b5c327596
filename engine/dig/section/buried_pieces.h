// The straight pieces of a section, clipped to what lies in the soil.
#pragma once

#include "engine/dig/section/buried_graph.h"

namespace hummock::dig {

// What of the pieces lies below the ground, or on it within kWeldDistance (laid on it exactly), and
// a lid on the ground inside each footing, which is no place to dig from.
std::vector<Piece> buried_pieces(const GroundLine& ground, const std::vector<Piece>& pieces);

}  // namespace hummock::dig

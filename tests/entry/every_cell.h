// The question of engine/entry/narrow_way.h as it was first answered: every cell of the floor at
// every height, before the way is sought. Slow, and a witness of the quick answer.
#pragma once

#include "engine/entry/narrow_way.h"

namespace hummock::entry::test_every_cell {

bool head_gets_away(const Model& model, const std::vector<geom::Mesh>& things,
                    const Doorway& doorway);

}  // namespace hummock::entry::test_every_cell

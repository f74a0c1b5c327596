// What each thing hides, and which dens see each other.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/sight/eye_ground.h"
#include "engine/sight/sight.h"
#include "engine/sight/sight_lines.h"
#include "engine/sight/viewing_eyes.h"

namespace hummock::sight {

// `usable`: see usable_nodes.h; `hidden`: 1 for the nodes of them no eye sees, each `area` m².
std::vector<ScreenRow> screens(const Model& model, const SightLines& lines, EyeGround& ground,
                               const std::vector<Viewpoint>& views,
                               const std::vector<std::uint8_t>& usable,
                               const std::vector<std::uint8_t>& hidden, double area, double seen_at,
                               const Progress& progress);

std::vector<DenPair> den_pairs(const Model& model, const SightLines& lines, double seen_at);

}  // namespace hummock::sight

// Curves over the day.
#pragma once

#include <optional>
#include <vector>

#include "engine/draw/canvas.h"
#include "engine/model/model.h"
#include "engine/shade/shade.h"

namespace hummock::report {

// Share of the ground in shade over the design day and the season days, against the place's clock.
// Nothing when the sun does not rise.
std::optional<draw::Figure> shade_curve(const Model& model, const shade::Day& day,
                                        const std::vector<shade::Day>& seasons,
                                        const shade::Settings& settings);

}  // namespace hummock::report

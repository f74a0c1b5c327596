// Houses that are drawn over one another, as an annex is.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/model/model.h"

namespace hummock::barrier {

inline constexpr double kSharedDepth = 1e-3;  // m; numeric, what is less is rounding: they touch

// Pairs of houses (of site.houses, the first named first) whose plans have area in common, deeper
// than kSharedDepth.
std::vector<std::pair<int, int>> shared_plans(const Model& model);

}  // namespace hummock::barrier

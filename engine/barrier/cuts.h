// Where the lines of other chains cross or touch a stretch on plan.
#pragma once

#include <vector>

#include "geometry/plan/polygon.h"

namespace hummock::barrier {

// Shares 0..1 of a→b, rising, with both ends; none nearer together than kSameLine.
std::vector<double> cuts_by(geom::Vec2 a, geom::Vec2 b, const std::vector<geom::Polygon>& others);

}  // namespace hummock::barrier

// What the plans share: points on the sheet, and the pens their lines are told apart by.
#pragma once

#include <vector>

#include "engine/draw/site_plan.h"

namespace hummock::draw {

inline constexpr Pen kHair{kFaint, 0.12};
inline constexpr Pen kGatePen{{0.70, 0.25, 0.15, 1.0}, 0.5};
inline constexpr Pen kContourPen{{0.62, 0.52, 0.38, 1.0}, 0.15};
Pen barrier_pen(const Section& section);  // dashed mesh, solid wall, glass
Pen viewing_pen();

std::vector<Vec2> on_sheet(const PlanFrame& frame, const std::vector<Vec2>& points);

}  // namespace hummock::draw

// Where things in the yard stand between two heights above the ground, as lines on plan: nodes miss
// what is thinner than a cell.
#pragma once

#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::usable {

// Of the animal's crouch, or height: what stands lower is stepped over; numeric, a setting.
inline constexpr double kSteppedOver = 0.25;

struct PlanLine {
  Vec2 a, b;
  friend bool operator==(const PlanLine&, const PlanLine&) = default;
};

// The outlines of the faces of objects, plantings and crowns that block a body, cut from `low` to
// `high` (m) above the ground: lowest at the lowest corner of a face, highest at the highest, so on
// sloping ground they reach a little too low and too high.
std::vector<PlanLine> thing_lines(const Model& model, double low, double high);

// Those of one part, of any kind.
void add_lines_of(const Model& model, const Part& part, double low, double high,
                  std::vector<PlanLine>& lines);

// From each node to the nearest of the lines, m; infinite beyond `within`.
std::vector<double> distance_to_lines(const geom::Grid& grid, const std::vector<PlanLine>& lines,
                                      double within);

}  // namespace hummock::usable

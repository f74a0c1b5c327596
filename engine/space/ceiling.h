// What bounds the air from above.
//
// Under a roof: the roof as built, with its sag. Elsewhere: the surface through the fence tops, the
// constrained Delaunay triangulation of the outline with every post as a corner at the height of
// the top there (the mean of two panels that meet in a step). It is the plane of the fence tops
// when they lie in one; over a fence that follows the ground it is a taut skin between the tops. On
// hilly ground the skin may run below the ground inside; the air is then what lies between where it
// is above.
#pragma once

#include <string>
#include <vector>

#include "engine/model/model.h"
#include "geometry/mesh/air_columns.h"

namespace hummock::space {

struct Ceiling {
  // The roof within the outline, then the fence-top surface where no roof is; together they cover
  // the outline once. Pieces, not welded.
  std::vector<geom::Mesh> sheets;
  geom::Mesh fence_tops;      // over the whole outline; empty when there is no fence
  geom::Mesh roof;            // as built, normals up; empty = open
  double roofed_share = 0.0;  // of the plan area
  bool whole_roof = false;    // the roof's plan is the outline, edge for edge
  std::string unknown;        // why there is no ceiling, or empty
};
Ceiling find_ceiling(const Model& model);

struct Air {
  double plan_area_m2 = 0.0;
  double volume_m3 = 0.0;  // without furniture taken off
  double gap_m3 = 0.0;     // ∫ (ceiling − ground)
  double least_m = 0.0;
};
Air measure_air(const Model& model, const Ceiling& ceiling);

// What closed solids that do not meet take of the air, in all: m³.
double volume_in_air(const Model& model, const Ceiling& ceiling,
                     const std::vector<geom::Mesh>& solids);

}  // namespace hummock::space

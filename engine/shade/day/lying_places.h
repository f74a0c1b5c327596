// Where on the ground an animal may lie, in sun or shade.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/model/model.h"
#include "geometry/plan/grid.h"

namespace hummock::shade {

struct LyingPlaces {
  std::vector<std::uint8_t> node;  // 1 = a place to lie; one a node of the day's grid
  double area_m2 = 0.0;            // of that ground; every place stands for the same share of it
  double body_length = 0.0, body_width = 0.0, body_height = 0.0;  // m
};

// Nodes the animal can live on ("can live", engine/usable/usable_ground.h) and at least its body's
// width from the boundary's line: nearer, a point on the ground is no place for a body, and on the
// line itself it is lit from outside. The area is that of the ground it can live on
// (engine/usable/usable_area.h), less the share of its nodes that lie in that strip.
LyingPlaces lying_places(const Model& model, const geom::Grid& grid);

}  // namespace hummock::shade

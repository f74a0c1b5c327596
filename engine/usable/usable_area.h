// Ground an animal can live on, as areas.
#pragma once

#include "engine/model/model.h"
#include "engine/usable/living_nodes.h"

namespace hummock::usable {

struct LivingAreas {
  double own_m2 = 0.0;     // what it can live on
  double beyond_m2 = 0.0;  // what it could live on and does not come to from its start
};

// Plan areas inside the outline (engine/usable/usable_ground.h says what living asks). The ground's
// triangles are cut exactly at the outline and judged by their own slope; the rest is judged once a
// triangle (at its middle), so the error is at most the length of the obstacles' outlines times the
// cell, half of that on average zero. A triangle counts where some corner of its cell lies in a
// patch the body fits. Where cells are wide (more than 0.1 m) those beside a thing are cut small,
// and each part counts by the corners that nothing hides from it: a wall thinner than a cell parts
// it too, and the cell of the error is 0.1 m there.
LivingAreas living_areas(const Model& model, const UsableGround& ground, const Nodes& nodes);
double living_area(const Model& model, const UsableGround& ground, const Nodes& nodes);  // own, m²

// Plan area inside the outline and in no house, m²: exact, houses that overlap counted once each.
double outdoor_area(const Model& model);

}  // namespace hummock::usable

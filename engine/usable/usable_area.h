// Ground an animal can live on, as areas.
#pragma once

#include "engine/model/model.h"
#include "engine/usable/living_nodes.h"

namespace hummock::usable {

// Plan area inside the outline the animal can live on, m² (engine/usable/usable_ground.h says what
// that asks). The ground's triangles are cut exactly at the outline and judged by their own slope;
// the rest is judged once a triangle (at its middle), so the error is at most the length of the
// obstacles' outlines times the cell, half of that on average zero. A triangle counts where some
// corner of its cell lies in a patch the body fits.
double living_area(const Model& model, const UsableGround& ground, const Nodes& nodes);

// Plan area inside the outline and in no house, m²: exact, houses that overlap counted once each.
double outdoor_area(const Model& model);

}  // namespace hummock::usable

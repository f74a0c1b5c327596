// Ground an animal can use.
#pragma once

#include "engine/model/model.h"

namespace hummock::space {

// Plan area inside the outline, m², where the ground is no steeper than stand_slope, the body's
// height is free above it, no solid stands on it, no den, house or hide covers it, and water is no
// deeper than wade_depth. The ground's triangles are cut exactly at the outline and judged by their
// own slope; the rest is judged once a triangle (at its middle), so the error is at most the length
// of the obstacles' outlines times the cell, half of that on average zero. Body width is not
// considered: a slot narrower than the animal counts.
double usable_area(const Model& model);

}  // namespace hummock::space

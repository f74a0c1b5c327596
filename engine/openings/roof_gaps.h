// Openings between the fence and the roof.
#pragma once

#include <vector>

#include "engine/openings/openings.h"

namespace hummock::openings {

void add_roof_gaps(const Model& model, std::vector<Opening>& list);

// The largest circle whose middle is inside `outer` and outside each of `inner` and which crosses
// none's edges, within `precision` of the true radius and never larger: quadtree search by cell
// bounds.
geom::Circle largest_circle_between(const Polygon& outer, const std::vector<Polygon>& inner,
                                    double precision);

}  // namespace hummock::openings

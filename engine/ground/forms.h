// Earth forms: the shapes a designer adds to the surveyed ground.
//
// mound   z += height · (1 + cos(π d / radius)) / 2 for d < radius, d the distance to `at`; a
// raised
//         cosine, level at its top and foot. Volume π radius² height (1 − 4/π²) / 2, steepest slope
//         atan(π height / (2 radius)) at half its radius.
// hollow  the same downwards.
// ridge   the mound's profile across its path: d is the distance to the path; round ends.
// bench   z = level inside the outline; outside it, within `batter`, a straight blend from level at
//         the outline to the ground that was there at the batter's foot.
// slope   z −= tan(angle) · (distance from `at` towards `downhill`), inside the outline, or
//         everywhere without one. A level ground becomes a plane falling at `angle`.
// smooth  each node in the outline (or everywhere) takes the mean of the nodes within `radius`. The
//         radius shrinks near the rim of the grid so that it stays inside it; hence a plane is left
//         as it is.
//
// Shapes are evaluated at the nodes: between them the surface is flat facets, so a form's volume
// differs from its closed form by O(cell²).
#pragma once

#include "engine/site/site.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::ground {

// (1 + cos(π d / radius)) / 2 for d < radius, else 0.
double raised_cosine(double d, double radius);
double distance_to_path(const std::vector<Vec2>& path, Vec2 p);

void apply_form(geom::Heightfield& ground, const GroundForm& form);

}  // namespace hummock::ground

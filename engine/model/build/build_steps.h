// The steps of build_model, in the order they run. Each adds parts to the model and fills the lists
// that belong to it; each may use what the steps before it left. During the building `model.ground`
// is the shaped ground without snow or scour: structures stand on what was designed.
#pragma once

#include "engine/model/model.h"

namespace hummock {

// Panels, posts and gateways' places round the outline. Gates must lie within their edge and apart.
// Posts are 60 mm round, stand just outside the line so that the inner face is unbroken, and reach
// 0.5 m into the ground (common practice, no source).
void build_boundary(Model& model);

// Inclined panels on the fence tops, leaning inwards, mitred where they meet.
void build_overhangs(Model& model);

// Skirts, aprons and footings.
void build_below_ground(Model& model);

// Leaves, vestibules and the grilles of drains.
void build_gates(Model& model);

void build_roof(Model& model);
void build_objects(Model& model, double growth, const Progress& progress);
void build_shelters(Model& model, double growth);

// A surrounding casts shade and stops sight and is no place for the animal: one that stands within
// the boundary, or across it, would be a step that nobody looks at. Touching the line is allowed.
// Throws InputError.
void refuse_surroundings_within(const Model& model);

}  // namespace hummock

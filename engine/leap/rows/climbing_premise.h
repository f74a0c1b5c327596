// What the animal may climb beside what its file lists (premises.h): what another record of
// `climbs` lists, and, where nobody has shown the list, whatever else stands on the site: each
// surface of its parts, the bark of crowns, what an unsaid house wall may be of, and earth where
// the ground has faces steeper than it stands on. No premise where nothing of that stands there.
#pragma once

#include <optional>

#include "engine/leap/rows/premises.h"

namespace hummock::leap {

// "it climbs nothing" of an empty list, else "it does not climb" what is beside it.
std::optional<Premise> climbing_premise(const Model& model);

// The animal with that taken.
Species climbs_at_most(const Model& model);

// Has the mesh a face between the two slopes (rad)?
bool has_face_between(const geom::Mesh& mesh, double from, double to);

}  // namespace hummock::leap

// Closed meshes that are surely solids, told without looking for faces that cross.
//
// If every face of a closed mesh, seen from one point, is turned outwards, the mesh projects on the
// sphere about the point without folding; and if the solid angles add up to one whole sphere each
// ray from the point meets it just once. So it cannot cross itself, and bounds a volume. Boxes,
// posts, logs and boulders are such; a deck on legs is not. Linear in the faces, in doubles: "yes"
// leaves a margin far above rounding, "no" is only "not told".
#pragma once

#include "geometry/mesh/mesh.h"

namespace hummock::geom {

bool is_star_solid(const Mesh& mesh);

}  // namespace hummock::geom

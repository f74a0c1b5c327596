// Is there room before a face that is held to?
//
// A face that something lies on is not climbed: there is nothing between them to climb in. That is
// where the point before it lies in a closed thing, or where a face turned towards it is nearer
// than what the animal squeezes through. What
// covers are things, dens, houses and the fence's own sheets; posts are climbed round, and the
// ground is asked elsewhere.
#pragma once

#include "engine/model/model.h"

namespace hummock::leap {

// `from`: a point of the face, lifted off it; `normal`: of the face, unit, towards the animal;
// `squeeze`: m, the least clear height it squeezes through.
bool room_to_hold(const Model& model, geom::Vec3 from, geom::Vec3 normal, double squeeze);

}  // namespace hummock::leap

// A section's face by height: its own make, and the bands of another make that it is given.
//
// A band runs all along the section between two lines parallel to its top, `from` and `to` above
// the foot as it lies straight from post to post; below a dip of the ground the lowest face goes
// on down. The cap is a smooth solid sheet from the top down. Bands do not meet one another or the
// cap (the reader refuses it). Each make is a part of its own, so that climbing, light and sight
// see it as it is. Gates and vestibules are of the section's own make, without bands: what climbs
// that make climbs them. The piece of fence over a gate's head has the bands.
#pragma once

#include <vector>

#include "engine/model/build/wall_mesh.h"
#include "engine/site/site.h"

namespace hummock {

// From the bottom up, the cap as the last of them.
std::vector<Band> bands_of(const Section& section);

// The make of what meets the ground.
SheetKind kind_at_foot(const Section& section);

// How far up from the foot nothing is mesh, m; the section's height when nothing is.
double solid_from_foot(const Section& section);

// Of the section's own make first, then of each of its bands.
using Faces = std::vector<geom::Mesh>;

// Adds one panel's wall to the faces it belongs to. Exact; the whole wall where there is no band.
void append_faces(Faces& faces, const Section& section, const Wall& wall);

}  // namespace hummock

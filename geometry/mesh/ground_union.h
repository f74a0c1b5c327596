// The ground as a block down to a level floor, united with solids that stand on it or in it.
//
// Only the ground near them meets them. The cells under a solid's low faces, and one around, are
// cut out as a block of their own, united by the boolean, and set back: where it was not met the
// patch's upright sides and floor come out of the boolean as they went in (exact arithmetic,
// rounded back to the same doubles), so they are taken off, and what is left joins the untouched
// cells corner by corner. The floor and the ground's outer walls are made as columns, with no
// boolean. The answer is the same solid as by uniting the whole block, with the same volume to
// rounding (1e-12 relative); the cost is that of the patch.
//
// It checks itself: the patch's floor faces must all come back and the sheet's rim be the ground's
// own ring; where they are not, or a solid reaches the ground's rim, the whole block is united
// instead.
#pragma once

#include <vector>

#include "geometry/mesh/boolean_cgal.h"
#include "geometry/terrain/heightfield.h"

namespace hummock::geom {

// `floor`: below all of the ground and of the solids. The solids are checked ones (see Operands).
Solid unite_with_ground(const Heightfield& ground, double floor, const std::vector<Mesh>& solids);

// The same by the boolean alone, of the whole block: the slow way, for tests and the odd case.
Solid unite_with_whole_ground(const Heightfield& ground, double floor,
                              const std::vector<Mesh>& solids);

}  // namespace hummock::geom

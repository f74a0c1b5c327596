// The ground that is the animal's own: what it comes to from where it starts.
//
// It starts where [leap] start says (where it walks on nothing within its length of that, no ground
// is its own); without one on the largest ground that is one by walking. From there it comes to
// what it walks to and leaps to (hops.h), and from there on again:
//   walking  on ground no steeper than stand_slope that it can be on (crouched too; afloat only
//            where its file says that it swims, for a default proves nothing here), as a disc of
//            its width: through no slot narrower than its body, past nothing that stands lower
//            than it squeezes (on the grid; between things in the yard however thin they are)
//   leaping  from the rim of such a part to the rim of another, or to the top of a thing and on
//   houses   in by a door or a vent that its body walks through, up to the sill by a leap, and out
//            by any other such of the same room (house_doors.h)
//   climbing on to a thing of the yard, or over it, by faces it climbs (climb_ways.h)
// The careful side is less ground: fences and houses that it climbs, what it hooks with its grip or
// squeezes through are not counted as a way here. A part it can come to but not leave again, as a
// pit, is none of its own: nor is what it left, once it is there.
//
// Known to a cell, as patches are (body_patches.h).
#pragma once

#include <cstdint>
#include <vector>

#include "engine/usable/usable_ground.h"
#include "geometry/plan/grid.h"

namespace hummock::usable {

struct Own {
  std::vector<std::uint8_t> nodes;   // 1 for those it comes to; for all where it walks nowhere
  std::vector<std::uint8_t> houses;  // 1 for those it goes into and comes out of again
};

// `walk`: how it is at each node, walking.
Own own_ground(const Model& model, const UsableGround& ground, const geom::Grid& grid,
               const std::vector<Being>& walk);

}  // namespace hummock::usable

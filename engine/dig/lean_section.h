// A section that leans along the fence.
//
// On ground that rises along the fence the nearest way up from a buried edge is square to the
// ground, not upright: the section's plane is turned about the level line x of the station, and so
// are its two halves each by its own angle. The section is exact in each half: the ground and the
// rock are followed from triangle to triangle, what is buried is cut by the half planes. Halves of
// different lean share that one point of the line x = 0 which is at the height `level`: only a
// tunnel through it is a tunnel.
#pragma once

#include <optional>

#include "engine/dig/stations.h"

namespace hummock::dig {

// Angles from upright, rad: a half that leans by a > 0 goes to the right of its own direction
// inwards by sin(a) for each metre up in it.
struct Lean {
  double level = 0.0;  // m, height of the line the halves are turned about
  double inside = 0.0, outside = 0.0;
  bool one_plane() const { return inside == outside; }
};

// Where a point of the section lies.
Vec3 on_lean(const StationPlace& place, const Lean& lean, Vec2 p);

// From −outside to inside, or as far as the ground goes on: a half ends at the outline (or house)
// and at ground too steep for it. `max_depth`: below the ground straight above, taken for rock.
// None when the halves do not come up to the ground on the station's own edge, or gate.
std::optional<VerticalSection> lean_section(const Model& model, const BuriedParts& parts,
                                            const StationPlace& place, const Lean& lean,
                                            double inside, double outside, double max_depth);

}  // namespace hummock::dig

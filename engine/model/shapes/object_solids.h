// Each kind of object as a solid about its own foot, and how it is set on the ground.
//
// All solids lean first (the upright axis tips towards their own +x), then turn.
// boulder   set in the ground: its lowest point lies kSunk of its height below the lowest ground
//           under it, so on level ground it stands (1 − kSunk)·size.z high.
// log       a round bar along its own x; size = length, diameter, diameter. Rests on the ground at
//           the point that touches first; a lean lifts its −x end.
// box       its top is size.z above the ground at `at`; on sloping ground it reaches down to the
//           lowest ground under it. A leaning box is rigid and rests on its lowest corner.
// post      round, size = diameter, diameter, height above the ground at `at`; kPostFoot of it more
//           is in the ground. It leans about the ground point.
// platform  a deck kDeck thick with its top size.z above the ground at `at`, on four square legs
//           that reach kLegFoot into the ground; 1 mm free between leg and deck, so that all five
//           are separate closed solids.
// tree      trunk as a post; the crown is a volume of its own.
// mesh      scaled, its `up` axis turned to z, the middle of its plan over `at`, its lowest point
// at
//           the lowest ground under its corners.
// z > 0 lifts the whole by that much; then a box is rigid and does not reach down.
#pragma once

#include "engine/model/model.h"

namespace hummock {

inline constexpr double kSunk = 0.08;     // of a boulder's height, common practice, no source
inline constexpr double kPostFoot = 0.5;  // m in the ground, common practice, no source
inline constexpr double kDeck = 0.05;     // m; common practice, no source
inline constexpr double kLeg = 0.10;      // m; common practice, no source
inline constexpr double kLegFoot = 0.3;   // m in the ground; common practice, no source
inline constexpr int kRoundSides = 16;

// The object's solid in place; not for kind mesh (import_mesh.h reads that; then `set_mesh`).
geom::Mesh object_solid(const geom::Heightfield& ground, const Object& object);

// An imported mesh, already scaled and z up, put in place.
geom::Mesh set_mesh(const geom::Heightfield& ground, const Object& object, geom::Mesh mesh);

// The crown's volume in place, and the round body it is inscribed in.
geom::Mesh crown_solid(const geom::Heightfield& ground, const Object& object, const Crown& crown);
geom::RoundVolume crown_volume(const geom::Heightfield& ground, const Object& object,
                               const Crown& crown);

}  // namespace hummock

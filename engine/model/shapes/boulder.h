// A boulder: a closed, irregular stone from a number.
//
// The same seed gives the same stone, byte for byte, on every machine: an icosphere (642 corners,
// 1280 triangles) pushed in and out by three octaves of value noise whose lattice values come from
// integer hashing, in plain IEEE arithmetic (+ − × ÷ √ only). The underside is flattened, the whole
// is fitted into `size` exactly. Star-shaped about its middle, so it never crosses itself.
#pragma once

#include <cstdint>

#include "geometry/mesh/mesh.h"

namespace hummock {

// Bounds are exactly ±size/2 in plan and 0..size.z in height. Each of `size` > 0.
geom::Mesh boulder_stone(std::uint32_t seed, geom::Vec3 size);

}  // namespace hummock

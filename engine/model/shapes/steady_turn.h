// Rotations that come out the same, bit for bit, on every machine.
//
// The C library picks its sine by processor, and the last bit may differ. Here: the angle is
// brought to ±π/4 and a Taylor polynomial is taken there, in plain IEEE arithmetic (no contraction,
// see CMakeLists.txt). Error below 1e-15 for |angle| <= 100.
#pragma once

#include "geometry/mesh/mesh.h"
#include "geometry/vec.h"

namespace hummock {

struct CosSin {
  double cos = 1.0;
  double sin = 0.0;
};
CosSin steady_cos_sin(double angle);

// Turned counter-clockwise about z.
inline geom::Vec3 turned(geom::Vec3 p, CosSin t) {
  return {p.x * t.cos - p.y * t.sin, p.x * t.sin + p.y * t.cos, p.z};
}
// Leaned about y: the upright axis tips towards +x.
inline geom::Vec3 leaned(geom::Vec3 p, CosSin t) {
  return {p.x * t.cos + p.z * t.sin, p.y, p.z * t.cos - p.x * t.sin};
}

// Leans by `lean`, then turns by `turn`, about the origin.
void lean_and_turn(geom::Mesh& mesh, double lean, double turn);
void shift(geom::Mesh& mesh, geom::Vec3 by);

}  // namespace hummock

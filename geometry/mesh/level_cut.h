// What of a triangle lies between two levels.
#pragma once

#include <array>
#include <cstddef>

#include "geometry/vec.h"

namespace hummock::geom {

// A triangle cut by two levels: five corners, and one more where rounding has them in one place.
struct LevelFace {
  std::array<Vec3, 6> corners{};
  std::size_t size = 0;
  void add(Vec3 p) { corners[size++] = p; }
};

// What of a convex face lies on the side of the level `z` that `sign` tells (1 above, -1 below).
inline LevelFace beyond_level(const LevelFace& face, double z, double sign) {
  LevelFace out;
  for (std::size_t k = 0; k < face.size; ++k) {
    const Vec3 p = face.corners[k], q = face.corners[(k + 1) % face.size];
    const double from = sign * (p.z - z), to = sign * (q.z - z);
    if (from >= 0.0) out.add(p);
    if ((from < 0.0) != (to < 0.0)) out.add(p + (q - p) * (from / (from - to)));
  }
  return out;
}

// The triangle's part from `low` up to `high`, m; empty (size 0) when there is none.
inline LevelFace between_levels(const LevelFace& whole, double low, double high) {
  const LevelFace face = beyond_level(whole, low, 1.0);
  return face.size > 0 ? beyond_level(face, high, -1.0) : face;
}

}  // namespace hummock::geom

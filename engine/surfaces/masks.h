// Which points of a lattice lie in an outline, kept for its own box only.
#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plan/grid.h"
#include "geometry/plan/node_range.h"
#include "geometry/plan/polygon.h"

namespace hummock::surfaces {

struct Mask {
  geom::NodeRange range;
  std::vector<std::uint8_t> in;  // of the range, row by row
  bool holds(int i, int j) const {
    if (i < range.i0 || i > range.i1 || j < range.j0 || j > range.j1) return false;
    const auto width = static_cast<std::size_t>(range.i1 - range.i0) + 1;
    return in[static_cast<std::size_t>(j - range.j0) * width +
              static_cast<std::size_t>(i - range.i0)] != 0;
  }
};

Mask mask_of(const geom::Grid& lattice, const geom::Polygon& outline);

template <class Things>
std::vector<Mask> masks_of(const geom::Grid& lattice, const Things& things) {
  std::vector<Mask> out;
  out.reserve(things.size());
  for (const auto& thing : things) out.push_back(mask_of(lattice, thing.outline));
  return out;
}

}  // namespace hummock::surfaces

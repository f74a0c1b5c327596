// Which sides of a mesh's triangles meet: those between the same two places, whether or not the
// triangles share their corners. It hangs on the mesh alone, so whoever asks a large mesh several
// times may keep it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "geometry/mesh/mesh.h"

namespace hummock::geom {

struct MeshSides {
  // Of each vertex; corners at one place have one number, in the order in which they first come.
  std::vector<std::uint32_t> place;
  // 3 × triangle + k: side k runs from corner k to the next. Round after round, each the sides
  // between two places: by the lesser place, then the greater, and within a round rising.
  std::vector<std::uint32_t> sides;
  std::vector<std::uint32_t> first;  // of each round, in `sides`; then the end

  std::size_t rounds() const { return first.empty() ? 0 : first.size() - 1; }
  std::span<const std::uint32_t> round(std::size_t k) const {
    return {sides.data() + first[k], sides.data() + first[k + 1]};
  }
};

// `same`: m, > 0; corners that round to one multiple of it on every axis are at one place. Linear
// in the triangles where each corner has few.
MeshSides mesh_sides(const Mesh& mesh, double same);

}  // namespace hummock::geom

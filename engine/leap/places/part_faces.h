// What each triangle of a part bears, which of them are one patch, and where a patch breaks off.
// First half of part_places (places.h says what counts).
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "engine/leap/places/places.h"
#include "geometry/mesh/mesh_sides.h"

namespace hummock::leap {

enum class Footing : char { none, stand, cling };

struct TriangleSide {
  std::uint32_t triangle = 0, side = 0;  // side k runs from corner k to the next
};

// What of a part's faces hangs on no rule, kept for large meshes that are asked several times.
struct PartShape {
  geom::MeshSides sides;
  std::vector<geom::Vec3> normal;  // by triangle: unit, towards where the animal is
  // Of each round of sides: a crest, rim or free edge that could be a perch. Empty: not asked yet.
  std::vector<char> crest;
};
using PartShapePtr = std::shared_ptr<const PartShape>;

PartShapePtr shape_of(const Model& model, const Part& part, const PlaceRules& rules);
// Has the shape of this part all that the rules ask for?
bool bears_on(const PartShape& shape, const Part& part, const PlaceRules& rules);

struct PartFaces {
  PartShapePtr shape;
  std::vector<Footing> footing;  // by triangle
  std::vector<TriangleSide> rims, perches;
  // Of each triangle, then of each perch: the least member of its patch.
  std::vector<std::uint32_t> patch;
};

PartFaces part_faces(const Model& model, const Part& part, const PlaceRules& rules,
                     const PartShapePtr& shape);

// The least upward part of a face's unit normal at which it is climbed, where its surface is.
double steepest_climbed(const Part& part, const PlaceRules& rules);
inline constexpr double kAnySlope = -2.0;  // numeric, below every part of a unit normal

// Does it bear an animal that stands on it? Fences and sheets overhead are held to only.
bool holds_weight(const Part& part);
inline std::array<geom::Vec3, 3> corners_of(const Part& part, std::size_t triangle) {
  const geom::Triangle& v = part.mesh.triangles[triangle];
  return {part.mesh.vertices[v[0]], part.mesh.vertices[v[1]], part.mesh.vertices[v[2]]};
}

}  // namespace hummock::leap

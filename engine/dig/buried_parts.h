// What stands in the soil, ready to be cut by vertical planes.
//
// Panels, gate leaves, skirts, aprons and footings of a model as triangles in a hash of square
// cells, so that a short cut looks only at what is near it. A cut is exact: each triangle gives a
// straight piece, in the plane's own coordinates. A corner of a triangle in the plane counts as on
// its positive side, so that neighbours never both miss the plane.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <unordered_map>
#include <vector>

#include "engine/dig/section/buried_graph.h"
#include "engine/model/model.h"

namespace hummock::dig {

// A plane through a level line: x of the section runs along `inwards` from `at`, y is height. A
// plane that leans turns about that line at the height `level`: going up in it one goes to the
// right of `inwards`, and y is `level` and what is gone up in the plane.
struct CutPlane {
  Vec2 at;
  Vec2 inwards;                     // unit
  double lean = 0.0, level = 0.0;   // rad, of the plane from upright; m
  double below = 0.0, above = 0.0;  // m of y about the level: what is cut, of a plane that leans
};

class BuriedParts {
 public:
  // `before_loss`: the ground that the rock lies under, where some of it is gone (wider_ground.h).
  explicit BuriedParts(const Model& model, std::optional<geom::Heightfield> before_loss = {});

  // The pieces met between x = from and x = to. `without`: kinds left out. Every piece that reaches
  // into the range is given whole.
  std::vector<Piece> cut(const CutPlane& plane, double from, double to,
                         std::uint32_t without = 0) const;

  // How far below the ground and how far from the fence anything buried reaches, m.
  double deepest() const { return deepest_; }
  double widest() const { return widest_; }
  const std::optional<geom::Heightfield>& before_loss() const { return before_loss_; }

 private:
  struct Solid {
    std::array<geom::Vec3, 3> corner;
    std::uint32_t kind = 0;
  };
  std::vector<Solid> triangles_;
  std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> cells_;
  double deepest_ = 0.0, widest_ = 0.0;
  std::optional<geom::Heightfield> before_loss_;
};

}  // namespace hummock::dig

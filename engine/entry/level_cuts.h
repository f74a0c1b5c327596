// What stands about a doorway, in small triangles that are cut level (narrow_way.h).
#pragma once

#include <array>
#include <vector>

#include "engine/entry/narrow_way.h"
#include "engine/model/model.h"

namespace hummock::entry {

using Corners = std::array<Vec3, 3>;  // x along the gate, y outwards, z above the ground, m

// The things' triangles in pieces no longer than kPiece; of those farther than `reach` from the
// gate's middle along either axis none (infinity: all).
std::vector<Corners> pieces_of(const Model& model, const std::vector<geom::Mesh>& things,
                               const Doorway& doorway, double reach);

// The two points at which the level plane cuts the triangle; false when it does not.
bool cut_level(const Corners& c, double height, std::array<Vec2, 2>& ends);

// Places nearer to a segment than a distance; most without a root.
class Near {
 public:
  Near(Vec2 a, Vec2 b, double distance)
      : a_(a), b_(b), distance_(distance), ab_(b - a), l2_(dot(ab_, ab_)) {}

  bool holds(Vec2 p) const;

 private:
  Vec2 a_, b_;
  double distance_;
  Vec2 ab_;
  double l2_;
};

}  // namespace hummock::entry

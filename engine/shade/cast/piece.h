// What a caster is made of where its shadow is concerned: few flat pieces in place of many
// triangles.
//
//   faces    flat convex faces, each merged of the triangles that lie in one plane and share sides
//   solid    a closed convex body: its shadow is that of its outline, whatever the number of faces
//   curtain  an upright sheet between two heights over a stretch of one straight line in plan. The
//            top is straight; the foot may follow the ground step by step
//   leaves   triangles as they are, of a volume that light is followed through
//
// Sides of merged pieces are straight to kFlat, so a shadow's edge moves by no more than that.
#pragma once

#include <cstdint>
#include <vector>

#include "engine/shade/beam/box_tree.h"
#include "engine/shade/beam/casters.h"

namespace hummock::shade {

inline constexpr double kFlat = 1e-7;            // m, out of one plane or line; numeric
inline constexpr std::size_t kMostCorners = 16;  // of a face; layout of the work
inline constexpr std::size_t kMostSides = 64;    // of a solid; layout of the work

struct PieceFace {
  std::uint32_t first = 0, count = 0;  // of Piece::corners
  Vec3 normal;                         // unit
};

enum class PieceKind { faces, solid, curtain, leaves };

struct Piece {
  PieceKind kind = PieceKind::faces;
  geom::Box3 box;
  std::vector<Vec3> points;
  std::vector<std::uint32_t> corners;  // indices into points, face by face, counter-clockwise
  std::vector<PieceFace> faces;
  std::vector<int> beside;  // solid: the face over the side from each corner to the next
  // Curtain: one face, from its lower left corner to the lower right and up. `foot`, where it is
  // not straight: (way along, height), rising.
  Vec2 along;
  std::vector<Vec2> foot;
};

struct Pieces {
  std::vector<Piece> all;
  BoxTree near;  // which of them could shade a place
};

Pieces pieces_of(const Caster& caster);

}  // namespace hummock::shade

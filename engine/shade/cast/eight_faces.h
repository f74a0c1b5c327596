// Flat faces of three or four corners, eight at a time: what NearShadows' shapes are of many small
// faces that lie together (a boulder, a roof of netting), by the same sums.
#pragma once

#include <array>
#include <cstdint>

#include "engine/shade/cast/eight_corners.h"
#include "engine/shade/cast/shadow_boxes.h"
#include "engine/shade/cast/tile_beam.h"

namespace hummock::shade {

// Eight faces member by member. Those without area in plan shade nothing, and their box meets
// nothing.
struct EightFaces {
  EightBoxes box;
  EightNumbers z_low;
  std::array<EightSides, 4> side;
  std::uint32_t four = 0;   // a bit for each that has a fourth
  EightNumbers z0, zx, zy;  // as ShadowPlane
  EightNumbers factor;      // of the beam
};

// What is known of them before they are set up; of a triangle the fourth corner is the first again.
struct FaceCorners {
  std::array<EightCorners, 4> corner;  // in shadow coordinates
  std::array<std::array<double, kWide>, 3> through, normal;
  std::uint32_t count = 0, four = 0;
};

// Where their shadows fall.
struct FacesFall {
  Vec3 ref;
  Vec2 run, across;
};
// Everything but the factors. Planes are lowered by `own`, m.
void set_up(const FaceCorners& corners, const FacesFall& fall, double own, EightFaces& faces);

// A bit for each that may_meet() the nodes.
std::uint32_t faces_meeting(const EightFaces& faces, const ShadedBox& nodes);

// Takes from the beam over the nodes what the faces of those bits take, in their order. `lit`: runs
// of nodes of which some may have light; they are kept so. `scanned`: was any node judged by
// itself? False when the tile is dark.
bool take_faces(const EightFaces& faces, std::uint32_t which, const ShadowNodes& nodes,
                std::uint32_t& lit, TileBeam& beam, bool& scanned);

}  // namespace hummock::shade

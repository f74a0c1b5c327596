// Gaps between two solids that close to a V.
//
// A ball that touches a face of the one and a face of the other is as wide as the gap is there.
// Where the two faces are within kClosing of parallel, what is pushed in is held: each push drives
// it deeper, and neither face is steep enough against it to push it out again. Over two triangles
// the places where such a ball touches both are a convex piece of the first, on which its diameter
// is a straight function of the place: found exactly. That the ball is free of both solids, above
// the ground and in no other solid is tried at points of that piece.
//
// Not seen: where the ball touches an edge or a corner and no face, as between round stones (their
// faces part at more than kClosing before half a chest fits, unless they are some seven times as
// thick as the chest is wide).
#pragma once

#include <optional>

#include "engine/model/model.h"
#include "geometry/mesh/mesh_distance.h"

namespace hummock::openings {

// Between two faces. Half of it is less than the angle of friction of hide on wood or stone (a
// coefficient above 0.27); common practice, no source.
inline constexpr double kClosing = 30.0 * geom::kDegree;

struct ClosingGap {
  Vec3 at;             // the middle of the ball
  double width = 0.0;  // m, its diameter
};

// Of `parts` of the model, their surfaces above the ground in trees.
struct FacedPart {
  int part = -1;
  const geom::MeshTree* tree = nullptr;
};

// The ball of a diameter in [from, to), the nearest to the middle of these; nothing when there is
// none.
std::optional<ClosingGap> closing_gap(const Model& model, const FacedPart& first,
                                      const FacedPart& second, double from, double to);

}  // namespace hummock::openings

// The pieces of one part's patches, merged on a lattice fixed to the part, so that a moved thing
// keeps its pieces. Second half of part_places (places.h); what of them can be used is asked after.
#pragma once

#include <deque>

#include "engine/leap/places/part_faces.h"

namespace hummock::leap {

struct LaidPiece {
  SurfacePiece spot;
  geom::Vec3 probe;                   // where headroom is asked
  std::array<geom::Vec3, 4> corners;  // where else the piece may be free, if it is not there
  geom::Vec3 normal;                  // of its face, unit; up on a perch
  std::uint32_t patch = 0;
};

// A deque: of millions no second copy is made as they grow, and who uses them up frees them.
// `tile`: faces and edges that are laid at once; no piece hangs on it.
inline constexpr std::size_t kItemsOfTile = 4096;  // numeric, a setting
std::deque<LaidPiece> lay_pieces(const Model& model, const Part& part, const PartFaces& faces,
                                 const PlaceRules& rules, std::size_t tile = kItemsOfTile);

}  // namespace hummock::leap

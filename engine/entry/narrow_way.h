// Does an animal's head get away from an open doorway, between things that stand close?
//
// The head is an upright disc as wide as the least opening (or the body, if that is less): where it
// goes the body follows. At each height above the ground what stands there is cut level, and the
// disc moves on plan wherever at some height nothing is nearer than its radius (over a curb and
// under a rail: careful). Its middle moves on square cells of a kParts-th of its width, and the
// disc is taken smaller by three quarters of a cell: a way that lets the true disc through runs
// through cells whose middles are that near to it, so none is missed; a gap of less than 1 - 1.5 /
// kParts of the head's width is always closed. Where the place is so large, or the head so small,
// that this would take more than kMostCells a side, cells are larger and that share falls.
//
// Cut level: triangles are cut into pieces no longer than kPiece, and each follows the ground below
// its corners; on ground that bends more within a piece a top may be taken too high or too low by
// that much, and where one sheet stands on another a slice may run between them. So "it gets away"
// counts only together with a ray's way (way_beyond.cpp). Things thinner than the step of the
// heights are passed by.
#pragma once

#include <vector>

#include "engine/model/model.h"

namespace hummock::entry {

inline constexpr double kParts = 20.0;   // numeric, a setting
inline constexpr int kMostCells = 2400;  // a side; numeric, a setting
inline constexpr double kPiece = 0.25;   // m; numeric, a setting

struct Doorway {
  Vec2 middle, along;           // of the gate; unit, the outside on its right
  double reach = 0.0;           // m from the middle, along either axis: so far is away
  double head = 0.0;            // m, width, > 0
  std::vector<double> heights;  // m above ground, at which it is tried
  std::vector<double> starts;   // m along the gate where a head goes through
  double through = 0.0;         // m beyond the line that it got to there
};
// `things`: what stops a body near the gate. Ground inside the model's outline is not entered.
bool head_gets_away(const Model& model, const std::vector<geom::Mesh>& things,
                    const Doorway& doorway);

}  // namespace hummock::entry

// The barrier as upright lines on plan, each with the sheets that stand in it.
#pragma once

#include <vector>

#include "engine/barrier/walk.h"
#include "engine/openings/sheet_band.h"

namespace hummock::openings {

struct BarrierLine {
  Vec2 a, b;
  int panel = -1;               // index into Model::panels, or
  int leaf_part = -1;           // a gate's leaf, or a vestibule's walls
  int gateway = -1;             // of that part
  bool set_in_footing = false;  // a raked panel, reaching down to its footing if it has one
  // Where the panel's lower edge is designed, at either end: m above datum, or above the ground
  // when it follows it.
  double foot_a = 0.0, foot_b = 0.0;
  bool foot_follows = false;
  std::vector<BandPiece> sheet;  // the panel or the leaf, x = metres from a
  std::vector<BandPiece> skirt;  // what is buried below it
  std::vector<BandPiece> footing;
};

// By which a panel ends short of its post on either side, m.
double half_joint(const Model& model, const Panel& panel);

// Under which of the barrier a gap is looked for.
barrier::Look look(const barrier::Stretch& stretch);

// Every panel that stands on the ground, every leaf, every wall of a vestibule, with the triangles
// of the model's parts that lie in them. Linear in the number of triangles.
std::vector<BarrierLine> barrier_lines(const Model& model);

}  // namespace hummock::openings

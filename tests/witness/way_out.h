// The least effort with which the witness gets out of a yard, and how.
//
// It floods from the ground inside the outline. Without effort: walking (neighbours on one piece no
// steeper than it stands on), climbing from hold to hold, reaching a free edge within `reach` of a
// hold or footing, swimming, stepping off an edge and falling, sliding down what it cannot stand
// on. With effort: flights between any two footholds, the least first, and where that is blocked
// steeper and flatter ones. Least greatest effort over the chain (a queue by rising effort). Then
// flights without aim, from everything gained, in all directions: what they first strike counts.
// It is out when it comes to the rim of the modelled ground. It knows no barrier, gate, roof or
// list of exits.
//
// What the answer proves: every move was tested against the exported triangles, so the animal of
// flight.h can get out with `effort`; the true least effort is not above it. What it does not
// prove: that there is no cheaper way (its footholds are samples), or that there is none.
#pragma once

#include "tests/witness/footholds.h"

namespace hummock::witness {

enum class MoveKind { start, walk, climb, reach, swim, step_off, flight };
const char* word(MoveKind kind);

struct Move {
  MoveKind kind = MoveKind::start;
  Vec3 from, to;
  double effort = 0.0;  // m
  std::string on;       // what it comes to stand on
};

struct Search {
  double limit = 1.35;  // m, greatest effort looked for
  Spacing spacing;
  int tries_a_foothold = 260;  // blocked flights to one foothold before it is given up
  int shots = 6000;            // flights without aim
  std::optional<Vec2> start;   // else the largest ground inside
};

struct WayOut {
  std::optional<double> effort;  // m; nothing: none found
  std::vector<Move> moves;       // from the ground inside
  int footholds = 0;
  long flights = 0;
};

WayOut way_out(const Yard& yard, const std::vector<Vec2>& outline, const Animal& animal,
               const Search& search);

}  // namespace hummock::witness

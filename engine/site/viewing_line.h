// Where a viewing place lies: along its edge of the outline as the file gives it, and where its
// guests stand.
#pragma once

#include "engine/site/site.h"

namespace hummock {

struct ViewingLine {
  Vec2 a, b;         // its ends on the edge, in the order of the outline
  Vec2 inwards;      // unit, into the yard, whichever way the outline winds
  double off = 0.0;  // m, how far outside the boundary guests stand
};

// The viewing's edge is one of the outline's.
ViewingLine viewing_line(const Boundary& boundary, const Viewing& viewing);

}  // namespace hummock

// How a raked panel meets the ground between its posts.
#pragma once

#include "engine/model/build/bands.h"

namespace hummock {

// Of what meets the ground (bands.h): netting is hung down to the ground and what stands on a
// footing is built down to it: their lower edge follows every dip. A rigid sheet (boards, glass)
// without a footing does not: its lower edge runs straight from post to post, or lies on the ground
// where that is higher (cut to fit). What it leaves over a dip is open. Common practice, no source.
inline bool follows_ground(const Section& section) {
  return section.fit == Fit::raked && (kind_at_foot(section) == SheetKind::mesh || section.footing);
}

}  // namespace hummock

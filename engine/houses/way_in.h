// Whether an animal that stands in the yard gets in by a house's door.
//
// sill     no higher than its leap (grip not counted), unless it climbs what house walls are made
// of. grille   one that its head does not pass shuts the door. before   a body of its width must
// find room right before the door, as deep as it is wide: rays at
//          every kApart across it, at some height from half of its own up to its leap. What stands
//          farther off is not looked at, nor anything in a model without rays. The careful side
//          here is that it cannot go in.
#pragma once

#include <optional>
#include <string>

#include "engine/barrier/barrier.h"

namespace hummock::houses {

inline constexpr double kApart = 0.02;  // m; numeric, a setting

// Why it cannot go in, in words; nothing when it can. `door` is the door's stretch of the chain.
std::optional<std::string> shut_out(const Model& model, const WallOpening& drawn,
                                    const barrier::Stretch& door);

}  // namespace hummock::houses

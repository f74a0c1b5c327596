// Whether an animal that stands in the yard gets in by a house's door.
//
// snow     what lies before the door leaves the height of its body free.
// grille   one that its head does not pass shuts the door.
// before   a body of its width must find room right before the door, as deep as it is wide: rays at
//          every kApart across it, at some height from half of its own up to its leap. What stands
//          farther off is not looked at, nor anything in a model without rays.
// comes    over its own ground (engine/usable/own_ground.h) it comes from where it starts into the
//          house and out again, walking and leaping: past walls, moats and banks to the door, and
//          up to its sill by the weaker leap of young and grown, unless it climbs what house walls
//          are made of. Another way into the house that its body walks through, or a step beside
//          the door, is as good. What else it climbs is not counted. Known to a cell of the ground,
//          or where those are wider than the body to a finer one (but of very large sites).
//
// The careful side here is that it cannot go in.
#pragma once

#include <optional>
#include <string>

#include "engine/barrier/barrier.h"

namespace hummock::houses {

inline constexpr double kApart = 0.02;  // m; numeric, a setting

// Why it cannot go in, in words; nothing when it can. `door` is the door's stretch of the chain;
// `comes`: it comes into the house, as above.
std::optional<std::string> shut_out(const Model& model, const WallOpening& drawn,
                                    const barrier::Stretch& door, bool comes);

}  // namespace hummock::houses

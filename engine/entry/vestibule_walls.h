// What a vestibule's own walls hold, beside the fence it stands at.
//
// With the inner gate open the vestibule is the barrier. Where the fence at the gate holds by an
// overhang or under a roof, and the vestibule has neither (it is not `roofed`, and no roof of the
// yard covers all of it), the animal leaves over its walls if it climbs what they are made of, or
// leaps them: top above the highest ground at its corners < leap_height + grip. A vestibule like
// its fence is no weaker than the fence, which the leap check judges.
#pragma once

#include <string>

#include "engine/barrier/barrier.h"

namespace hummock::entry {

struct VestibuleWalls {
  bool weaker = false;     // than the fence, and the animal gets over them
  std::string words;       // by what
  bool into_yard = false;  // some of its wall stands in the yard
};
VestibuleWalls judge_walls(const Model& model, const barrier::Barrier& barrier, int gateway);

}  // namespace hummock::entry

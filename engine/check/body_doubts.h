// What of the animal may leave it less room, shade, hiding or shelter than the figures used: each
// with its careful end (rests_on_body.h).
//
// Careful is here what leaves less: less of a leap, a slope, a depth; a body, an eye or a crouch
// that is more; that it does not swim, does not climb, does not leap from the water; that a water
// that can be emptied is empty. Each where the file gives such a value beside the used one, as
// `careful` or in another record, or where nobody has shown the used one: a quarter less or more of
// it then. That it swims and leaps from the water is nobody's word where the file leaves it out. Of
// the body each side is the most that any record of it says. The leap's distance goes with its
// height, and both are the young's as well, since the ground is theirs too.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/brief/assumptions.h"
#include "engine/model/model.h"

namespace hummock {

struct BodyDoubt {
  Assumption told;
  std::function<void(Species&)> take;       // the careful way
  std::function<void(Model&)> change = {};  // of the yard, not of the animal
};

// That bear `analysis`, the body first.
std::vector<BodyDoubt> body_doubts(const Model& model, const std::string& analysis);

}  // namespace hummock

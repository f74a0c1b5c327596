// A little yard built in code: tests of drawing and picking need no reader.
#pragma once

#include <memory>

#include "engine/model/model.h"

namespace hummock::viewer_test {

// 12 × 9 m, a mound at (8, 6), wire panels 2.4 m high with an overhang on the south side, a box
// (part 0) of 1.4 × 1.1 × 0.9 m at (3, 2), a crown (part 1) at (9, 2.5).
std::shared_ptr<Model> small_yard();

}  // namespace hummock::viewer_test

// Where a body gets to through one open door.
#pragma once

#include <string>

#include "engine/model/model.h"

namespace hummock::entry {

struct WayBeyond {
  bool passable = false;        // a body can go through the open doorway at all
  bool outside = false;         // and gets away
  bool held_by_things = false;  // it does not, for what stands outside, which is no vestibule
  std::string words;
};

// With the gateway's own leaf gone.
WayBeyond way_beyond(const Model& model, const Gateway& gateway);

}  // namespace hummock::entry

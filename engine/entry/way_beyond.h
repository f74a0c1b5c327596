// Where a body gets to through one open door.
#pragma once

#include <memory>
#include <string>

#include "engine/model/model.h"

namespace hummock::entry {

struct WayBeyond {
  bool passable = false;        // a body can go through the open doorway at all
  bool outside = false;         // and gets away
  bool held_by_things = false;  // it does not, for what stands outside, which is no vestibule
  std::string words;
};

// One gate and what stands about it, for several animals: their heads and leaps alone are asked.
// Both that it is made of must outlive it.
class BeyondGate {
 public:
  BeyondGate(const Model& model, const Gateway& gateway);
  BeyondGate(const BeyondGate&) = delete;
  BeyondGate& operator=(const BeyondGate&) = delete;
  ~BeyondGate();
  WayBeyond way_of(const Species& animal) const;

  struct About;

 private:
  std::unique_ptr<const About> about_;
};

// With the gateway's own leaf gone.
WayBeyond way_beyond(const Model& model, const Gateway& gateway);

}  // namespace hummock::entry

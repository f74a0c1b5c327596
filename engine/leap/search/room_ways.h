// From one way of a house's room to its others, within: for the search (minimax.h, Rooms).
//
// By the floor, at what the other asks from there (Patch::up_within), or straight over from sill to
// sill where that is less: the bound of a leap between their boxes, since what stands within is not
// drawn, so that a sill is a step to a higher one.
#pragma once

#include <utility>
#include <vector>

#include "engine/leap/search/minimax.h"

namespace hummock::leap {

class RoomWays {
 public:
  // Keeps references. `wanted`: patches that may be gained.
  RoomWays(const std::vector<PatchPtr>& patches, const LinkRules& rules,
           const std::vector<int>& wanted);

  // To every other wanted way of its room, with the patch it leads to; none from what is no such
  // way.
  std::vector<std::pair<int, Link>> from(int patch) const;

  // Counts what is gained. Is there some left that no flight leads to?
  void gained(int patch);
  bool some_left() const { return left_ > 0; }

 private:
  const std::vector<PatchPtr>& patches_;
  const LinkRules& rules_;
  std::vector<int> ways_;
  int left_ = 0;
};

// Its targets; where it starts is gained.
std::vector<int> wanted_of(const Quest& quest);
// Those of them that a flight may lead to.
std::vector<int> flown_to(const std::vector<PatchPtr>& patches, std::vector<int> wanted);

}  // namespace hummock::leap

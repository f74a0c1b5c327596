// One more *if* among what an answer rests on, of which a row shows kMostIfs at most.
#pragma once

#include <algorithm>

#include "engine/brief/assumptions.h"

namespace hummock {

// Nothing where it is told already. Where the list is full, one that nobody has confirmed takes the
// place of one that a keeper has: else a row would stand as met whatever it rests on besides.
inline void take_if(const Assumption& a, RestsOn& into) {
  const bool told = std::any_of(into.list.begin(), into.list.end(), [&](const Assumption& b) {
    return b.key == a.key && b.words == a.words;
  });
  if (told) return;
  if (into.list.size() < kMostIfs) {
    into.list.push_back(a);
    return;
  }
  const auto sure = std::find_if(into.list.begin(), into.list.end(),
                                 [](const Assumption& b) { return b.confirmed(); });
  if (!a.confirmed() && sure != into.list.end()) *sure = a;
}

}  // namespace hummock

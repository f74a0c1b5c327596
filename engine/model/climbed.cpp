#include "engine/model/climbed.h"

#include <algorithm>

namespace hummock {

bool climbs(const Species& animal, Surface surface) {
  const auto& list = animal.climbs.value;
  return std::find(list.begin(), list.end(), to_string(surface)) != list.end();
}

}  // namespace hummock

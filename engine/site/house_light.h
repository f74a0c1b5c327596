// Lamps of a house that a timer switches so that they follow the sun.
#pragma once

#include <optional>

#include "engine/base/input_error.h"

namespace hummock {

struct HouseLight {
  std::optional<double> latitude;  // rad north, whose days are followed; nothing = the site's own
  double before = 0.0;             // h on before sunrise
  double after = 0.0;              // h on after sunset
  double least = 0.0;              // h on a day at the least
  double most = 24.0;              // h on a day at the most
  Where where;
};

}  // namespace hummock

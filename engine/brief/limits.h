// The limits of a requirement, for so many animals: what its row of the brief is held against.
#pragma once

#include <optional>

#include "engine/species/species.h"

namespace hummock {

struct Limits {
  std::optional<double> low, high;  // in the figure's unit; nothing where the row has none
};
Limits limits_for(const Requirement& row, int animals);

}  // namespace hummock

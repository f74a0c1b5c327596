// Does a keeper with a barrow pass a vestibule from the one gate to the other?
//
// A disc of the barrow's width (engine/keepers/walker.h), or as wide as the vestibule where that is
// less, on the plan of the vestibule: clear of its two sides and of all that stands in it between
// kStep and a keeper's height above the ground, things and the walls of others, at most kStepAcross
// apart.
#pragma once

#include <optional>
#include <string>

#include "engine/model/model.h"

namespace hummock::entry {

// The name of a thing that stands in the way, where none is left; nothing where there is one.
std::optional<std::string> stands_in_vestibule(const Model& model, const Gateway& g,
                                               const Gate& gate);

}  // namespace hummock::entry

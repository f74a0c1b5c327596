// Whether a drain through the fence has something standing before it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/model/model.h"

namespace hummock::water {

// The height above the ground at which water reaches an opening of the drain that is free: its
// sill, or higher where only its upper part is; nothing when all of it is shut. Asked along level
// lines square to the fence, at most 2 cm apart over its width, at a tenth, half and nine tenths of
// its height: such a line is free when it does not begin in a closed part and meets nothing for the
// drain's height or 0.1 m, whichever is more, inward and outward. Earth, and what lets a body
// through (plants, crowns), does not count; a mesh does. Common practice, no source: a drain with
// less room before it is soon blocked by litter.
std::optional<double> clear_sill(const Model& model, const Drain& drain);

// Names of the drains that are shut so.
std::vector<std::string> shut_drains(const Model& model);

}  // namespace hummock::water

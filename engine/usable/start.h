// The place where the animal starts, as the site file gives it.
#pragma once

#include "engine/model/model.h"

namespace hummock::usable {

// Throws InputError where [leap] start lies in a house or another solid, or in water deeper than
// the animal wades: no analysis may then say what is its own from there.
void require_start(const Model& model);

}  // namespace hummock::usable

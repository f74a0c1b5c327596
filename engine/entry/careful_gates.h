// What "this open gate leads nowhere out" rests on: the animal's head and, where it has no
// vestibule, its leap (rests_on.h); over a vestibule's walls open_vestibule.h asks.
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/model/model.h"

namespace hummock::entry {

// For a gate that leads nowhere out at the used figures. Empty where the careful ends do not
// either.
RestsOn gate_rests_on(const Model& model, const Gateway& gateway);

}  // namespace hummock::entry

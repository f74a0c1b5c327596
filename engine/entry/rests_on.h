// What "no gate left open lets it out" rests on: at each vestibule that holds the animal, what the
// leap check of the open vestibule rests on (open_vestibule.h).
#pragma once

#include "engine/brief/assumptions.h"
#include "engine/entry/entry.h"

namespace hummock::entry {

RestsOn what_it_rests_on(const Model& model, const Settings& settings, const Result& found,
                         const Progress& progress = {});

}  // namespace hummock::entry

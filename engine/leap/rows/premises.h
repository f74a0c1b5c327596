// What "no way out" takes for granted, one by one (rests_on.h).
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/brief/assumptions.h"
#include "engine/leap/leap.h"

namespace hummock::leap {

// One thing taken for granted. `take` sets it `share` of the way from the used value (0) to the
// careful one (1).
struct Premise {
  Assumption told;
  bool numeric = false;
  bool frozen = false;  // taken the careful way the waters bear the animal
  std::function<void(Species&, double share)> take;
  std::function<std::string(double share)> value;  // at that share, in words
};

// Of this site's animal, with the keepers' words taken in. The careful end of a figure is the
// file's `careful`; of the leap, where the file gives none, the strongest of its other records,
// else kStronger times an unsure figure. Rows without a careful end are no premises, but the leap's
// and `hangs`.
std::vector<Premise> premises(const Model& model, const Settings& settings);

}  // namespace hummock::leap

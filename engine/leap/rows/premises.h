// What a "no way out" may rest on: the premises of one site and animal, each with its careful end
// (rests_on.h says which count).
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/brief/assumptions.h"
#include "engine/leap/leap.h"

namespace hummock::leap {

// The animal and the yard as one set of premises takes them.
struct Taken {
  Species species;
  bool plantings_bear = false;
  bool frozen = false;  // the waters bear it
  bool crowns_bear = false;
  bool walls_rough = false;     // of houses, where the file says nothing
  bool helped_indoors = false;  // up to the vents, where the file says nothing
  bool digs = false;            // beneath what parts the ground
  bool drained = false;         // waters that can be emptied are
};

// One thing taken for granted. `take` sets it `share` of the way from the used value (0) to the
// careful one (1).
struct Premise {
  Assumption told;
  bool numeric = false;
  bool in_proportion = false;  // both figures of the leap grow alike
  std::function<void(Taken&, double share)> take;
  std::function<std::string(double share)> value;  // at that share, in words
};

// Of this site's animal, with the keepers' words taken in: its own figures (figure_premises.h), and
// what is taken for granted of the yard. Of `hangs` an unsure no, or none, has a careful end too.
std::vector<Premise> premises(const Model& model, const Settings& settings);

// That the waters which can be emptied are full, in words; empty where there is none.
std::string full_waters(const Site& site);

}  // namespace hummock::leap

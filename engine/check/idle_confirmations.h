// Keepers' words for an *if* that is not there.
#pragma once

#include <string>
#include <vector>

#include "engine/check/results.h"
#include "engine/model/model.h"

namespace hummock {

// Of the site file's confirmations those that no answer rests on, in words; of the species file's
// none, since they are for all sites. Silent where that cannot be told: leap, dig or openings did
// not run, careful ends were not explored, or an animal gets out as it is. Answers to rows in words
// that answer none are told always.
std::vector<std::string> idle_confirmations(const Site& site, const CheckResults& results);

}  // namespace hummock

// What an answer took for granted, in words.
#pragma once

#include "engine/leap/places/places.h"
#include "engine/leap/rows/objects.h"

namespace hummock::leap {

// 'one', 'another'
std::string names_of(const Model& model, const std::vector<int>& parts);

void add_notes(const SearchContext& scene, const PlaceRules& rules, Result& result);

}  // namespace hummock::leap

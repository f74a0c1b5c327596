// Does an animal of these figures get out, and nothing else: for what an answer rests on.
//
// The same places, links and search as analyse's, up to the animal's own leap, without rows. Asked
// again and again of one site, it keeps the places that a figure does not bear. A copy shares them:
// two may be asked side by side.
#pragma once

#include <optional>

#include "engine/leap/leap.h"
#include "engine/leap/places/site_places.h"

namespace hummock::leap {

enum class GetsOut { no, yes, unknown };

// How the yard is taken.
struct Circumstances {
  bool plantings_bear = false;  // as in PlaceRules
  bool frozen = false;          // its waters are walked on; else as the settings say
  bool crowns_bear = false;     // as in PlaceRules
  bool walls_rough = false;     // as in PlaceRules
  bool helped_indoors = false;  // as in PlaceRules
  bool digs = false;            // beneath what parts the ground, as far as its figures go
  bool drained = false;         // as in PlaceRules
};

// Would these rules tell the same places of the model's ground? False where that is not plain.
bool same_ground_places(const Model& model, const PlaceRules& a, const PlaceRules& b);

class EscapeQuestion {
 public:
  // Keeps a reference to the model; its own species is not asked.
  EscapeQuestion(const Model& model, const Settings& settings)
      : model_(model), settings_(settings) {}

  GetsOut ask(const Species& species, const Circumstances& yard, const Progress& progress = {});

 private:
  void find_places(const PlaceRules& rules);
  void find_ground(const PlaceRules& rules, const std::optional<PlaceRules>& before);

  // Ground as some rules tell it.
  struct Ground {
    PlaceRules rules;
    GroundPlaces places;
  };

  const Model& model_;
  Settings settings_;
  std::optional<PlaceRules> rules_;  // of the places kept
  SitePlaces places_;
  std::optional<Ground> other_;  // what the ground was before: most questions come back to it
};

}  // namespace hummock::leap

// Frozen waters: walked on as ground is.
#include "engine/leap/leap.h"
#include "engine/leap/places/places.h"

namespace hummock::leap {

PlaceRules place_rules(const Species& species, const Settings& settings) {
  PlaceRules rules = place_rules(species, settings.resolution, settings.climb_inverted);
  if (settings.ice != Ice::bears) return rules;
  rules.body.swims = true;
  rules.ability.water = rules.body.leap_from_water = 1.0;
  rules.wade_depth = 0.0;
  return rules;
}

}  // namespace hummock::leap

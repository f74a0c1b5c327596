#include "engine/species/body.h"

#include <algorithm>

namespace hummock {
namespace {

// common practice, no source: overhangs are asked at 35 to 45 degrees above the level.
constexpr double kClimbsPastUpright = 30.0 * geom::kDegree;

template <class T>
T or_default(const std::optional<Sourced<T>>& row, T otherwise, const char* key,
             std::vector<std::string>& defaults) {
  if (row) return row->value;
  defaults.emplace_back(key);
  return otherwise;
}

}  // namespace

Body body_of(const Species& species) {
  Body out;
  out.length = species.body.value[0];
  out.width = species.body.value[1];
  out.height = species.body.value[2];
  const double head = species.least_opening.value;
  out.crouch = std::min(or_default(species.crouch, head, "crouch", out.defaults), out.height);
  out.reach = or_default(species.reach, out.length, "reach", out.defaults);
  out.perch = or_default(species.perch, 0.0, "perch", out.defaults);
  out.climbs_past_upright = or_default(species.climbs_past_upright, kClimbsPastUpright,
                                       "climbs_past_upright", out.defaults);
  out.hangs = or_default(species.hangs, false, "hangs", out.defaults);
  out.swims = or_default(species.swims, true, "swims", out.defaults);
  out.leap_from_water =
      or_default(species.leap_from_water, out.swims ? 1.0 : 0.0, "leap_from_water", out.defaults);
  return out;
}

}  // namespace hummock

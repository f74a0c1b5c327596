// The answer of `hummock sun` as JSON.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/sun/sun.h"

namespace hummock::sun {

// Keys: time, azimuth_deg (clockwise from true north), elevation_deg (apparent), zenith_deg
// (apparent), geometric_elevation_deg, refraction_deg, distance_au, day ("rises and sets" | "up all
// day" | "down all day"), sunrise, transit, sunset (local clock with seconds and offset; null when
// it does not happen on that civil day), day_length_h, delta_t_s.
nlohmann::json to_json(const Place& place, Instant when);

const char* to_string(DayKind kind);

}  // namespace hummock::sun

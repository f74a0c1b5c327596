// From where in the sky to the model's axes.
#pragma once

#include "engine/site/site.h"
#include "geometry/vec.h"

namespace hummock::sun {

// Unit vector towards an azimuth (rad clockwise from true north) and elevation, as
// Position::towards.
Vec3 direction(const Place& place, double azimuth, double elevation);

}  // namespace hummock::sun

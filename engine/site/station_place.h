// Where a station lies on plan.
#pragma once

#include "engine/site/site.h"

namespace hummock {

// As its file says, else the middle of the object or den it is on.
Vec2 station_place(const Site& site, const Station& station);

}  // namespace hummock

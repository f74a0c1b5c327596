// Bringing a site's coordinates near zero, so that single-precision rays stay exact.
//
// Sites drawn on a national grid have coordinates of millions of metres, where a float's step is
// a quarter of a metre. When the outline reaches farther than 1 km from zero, the whole metres of
// its south-west corner are taken off everything in plan.
#pragma once

#include "engine/site/site.h"

namespace hummock {

// What to take off; zero for a site that is near zero already.
Vec2 local_origin(const Site& site);

// The site with `origin` taken off every coordinate.
Site shifted(Site site, Vec2 origin);

}  // namespace hummock

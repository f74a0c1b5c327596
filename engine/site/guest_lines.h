// Where guests stand along the boundary: viewing places, and sections marked for them.
#pragma once

#include <string>
#include <vector>

#include "engine/site/site.h"

namespace hummock {

// A stretch of the boundary's line behind which guests stand.
struct GuestLine {
  std::string name;  // of the viewing place or section
  Vec2 a, b;
};
// The drawn viewing places in the site's order, then every edge of the sections for guests.
std::vector<GuestLine> guest_lines(const Site& site);

}  // namespace hummock

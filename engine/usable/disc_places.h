// Where a disc stands on a plan, and which of those places it comes to from which.
#pragma once

#include <functional>
#include <vector>

#include "engine/usable/number_parts.h"
#include "engine/usable/thing_lines.h"
#include "geometry/plan/polygon.h"

namespace hummock::usable {

struct DiscPlaces {
  geom::Grid grid;        // over the plan
  std::vector<int> part;  // by node, kNone where the disc's middle cannot be
  int next = 0;           // one more than the last part's number
};

// The middle of the disc is in the plan, `clear` m or more from every line, and not where `taken`
// says so. Places are `apart` m apart and one part where steps along x and y join them; parts are
// numbered from `first` on.
DiscPlaces disc_places(const geom::Polygon& plan, const std::vector<PlanLine>& lines, double clear,
                       double apart, int first = 0, const std::function<bool(Vec2)>& taken = {});

}  // namespace hummock::usable

// Could a box shade another for suns of a range? Separating axes in plan; false is certain.
#pragma once

#include <algorithm>
#include <cmath>

#include "engine/shade/beam/terrain_clear.h"
#include "geometry/vec.h"

namespace hummock::shade {

// `along`: unit vector near the runs' direction, the third axis (with its normal the fourth).
inline bool may_shade(const geom::Box3& part, const geom::Box3& nodes, const RunRange& run,
                      Vec2 along) {
  const double rise1 = part.hi.z - nodes.lo.z;
  if (rise1 <= 0.0) return false;
  const double rise0 = std::max(0.0, part.lo.z - nodes.hi.z);
  // nodes + rise · run and the part, seen along an axis: do [n0, n1] and [p0, p1] stay apart?
  const auto apart = [&](double p0, double p1, double n0, double n1, double c0, double c1) {
    return n0 + std::min(rise0 * c0, rise1 * c0) > p1 || n1 + std::max(rise0 * c1, rise1 * c1) < p0;
  };
  if (apart(part.lo.x, part.hi.x, nodes.lo.x, nodes.hi.x, run.lo.x, run.hi.x) ||
      apart(part.lo.y, part.hi.y, nodes.lo.y, nodes.hi.y, run.lo.y, run.hi.y))
    return false;
  const auto apart_along = [&](double ax, double ay) {
    const auto lower = [&](const auto& b) {
      return (ax < 0 ? b.hi.x : b.lo.x) * ax + (ay < 0 ? b.hi.y : b.lo.y) * ay;
    };
    const auto upper = [&](const auto& b) {
      return (ax < 0 ? b.lo.x : b.hi.x) * ax + (ay < 0 ? b.lo.y : b.hi.y) * ay;
    };
    return apart(lower(part), upper(part), lower(nodes), upper(nodes), lower(run), upper(run));
  };
  return !apart_along(-along.y, along.x) && !apart_along(along.x, along.y);
}

}  // namespace hummock::shade

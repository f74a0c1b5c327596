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
  // Does nodes + rise · run meet the part, seen along the axis a?
  const auto apart = [&](double ax, double ay) {
    const auto range = [&](double x0, double x1, double y0, double y1, double& lo, double& hi) {
      lo = (ax < 0 ? x1 : x0) * ax + (ay < 0 ? y1 : y0) * ay;
      hi = (ax < 0 ? x0 : x1) * ax + (ay < 0 ? y0 : y1) * ay;
    };
    double p0 = 0, p1 = 0, n0 = 0, n1 = 0, c0 = 0, c1 = 0;
    range(part.lo.x, part.hi.x, part.lo.y, part.hi.y, p0, p1);
    range(nodes.lo.x, nodes.hi.x, nodes.lo.y, nodes.hi.y, n0, n1);
    range(run.lo.x, run.hi.x, run.lo.y, run.hi.y, c0, c1);
    return n0 + std::min(rise0 * c0, rise1 * c0) > p1 || n1 + std::max(rise0 * c1, rise1 * c1) < p0;
  };
  return !apart(1, 0) && !apart(0, 1) && !apart(-along.y, along.x) && !apart(along.x, along.y);
}

}  // namespace hummock::shade

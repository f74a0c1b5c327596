// Could a box shade another for suns of a range? Separating axes in plan; false is certain.
#pragma once

#include <algorithm>
#include <cmath>

#include "engine/shade/beam/terrain_clear.h"
#include "geometry/vec.h"

namespace hummock::shade {

// Asked of many parts for the same nodes. `along`: unit vector near the runs' direction, the third
// axis (with its normal the fourth).
class MayShade {
 public:
  MayShade(const geom::Box3& nodes, const RunRange& run, Vec2 along)
      : low_(nodes.lo.z),
        high_(nodes.hi.z),
        x_{1, 0, nodes, run},
        y_{0, 1, nodes, run},
        along_{along.x, along.y, nodes, run},
        across_{-along.y, along.x, nodes, run} {}

  // Across first: a low sun's shadows are narrow bands aslant to x and y.
  bool operator()(const geom::Box3& part) const {
    const double rise1 = part.hi.z - low_;
    if (rise1 <= 0.0) return false;
    const double rise0 = std::max(0.0, part.lo.z - high_);
    return !across_.apart(part, rise0, rise1) && !x_.apart(part.lo.x, part.hi.x, rise0, rise1) &&
           !y_.apart(part.lo.y, part.hi.y, rise0, rise1) && !along_.apart(part, rise0, rise1);
  }

 private:
  // nodes + rise · run and the part, seen along an axis: do [n0, n1] and [p0, p1] stay apart?
  struct Axis {
    double x, y, n0, n1, c0, c1;
    Axis(double ax, double ay, const geom::Box3& nodes, const RunRange& run)
        : x(ax), y(ay), n0(lower(nodes)), n1(upper(nodes)), c0(lower(run)), c1(upper(run)) {}
    template <class Range>
    double lower(const Range& b) const {
      return (x < 0 ? b.hi.x : b.lo.x) * x + (y < 0 ? b.hi.y : b.lo.y) * y;
    }
    template <class Range>
    double upper(const Range& b) const {
      return (x < 0 ? b.lo.x : b.hi.x) * x + (y < 0 ? b.lo.y : b.hi.y) * y;
    }
    bool apart(double p0, double p1, double rise0, double rise1) const {
      return n0 + std::min(rise0 * c0, rise1 * c0) > p1 ||
             n1 + std::max(rise0 * c1, rise1 * c1) < p0;
    }
    bool apart(const geom::Box3& part, double rise0, double rise1) const {
      return apart(lower(part), upper(part), rise0, rise1);
    }
  };
  double low_, high_;
  Axis x_, y_, along_, across_;
};

}  // namespace hummock::shade

#include "engine/model/build/corner_cut.h"

#include <cmath>

namespace hummock {
namespace {

using geom::Vec2;

constexpr double kMostCut = 1e3;

// Lean of the line from the corner to `to`, in the edge's (s, t) with t towards `side`.
double lean_towards(Vec2 along, Vec2 side, Vec2 to) {
  const double t = dot(side, to);
  return t > 1e-12 ? std::clamp(dot(along, to) / t, -kMostCut, kMostCut) : 0.0;
}

}  // namespace

EndCuts end_cuts(const geom::Polygon& outline, int edge, double reach, std::optional<double> before,
                 std::optional<double> after) {
  const std::size_t n = outline.size();
  const auto k = static_cast<std::size_t>(edge);
  const Vec2 p0 = outline[(k + n - 1) % n];
  const Vec2 p1 = outline[k];
  const Vec2 p2 = outline[(k + 1) % n];
  const Vec2 p3 = outline[(k + 2) % n];
  const Vec2 along = unit(p2 - p1);
  const Vec2 side = geom::left_of(along) * (reach < 0.0 ? -1.0 : 1.0);
  constexpr double kStraight = 1e-6;
  const auto in_line = [&](Vec2 other) { return std::abs(cross(along, unit(other))) < kStraight; };
  EndCuts cuts;
  if (!in_line(p1 - p0)) {
    if (before) {
      cuts.start_lean =
          lean_towards(along, side, geom::mitre(p0, p1, p2, *before, reach, 1e4) - p1);
    } else {
      cuts.start_lean = std::max(0.0, lean_towards(along, side, p0 - p1));
    }
  }
  if (!in_line(p3 - p2)) {
    if (after) {
      cuts.end_lean = lean_towards(along, side, geom::mitre(p1, p2, p3, reach, *after, 1e4) - p2);
    } else {
      cuts.end_lean = std::min(0.0, lean_towards(along, side, p3 - p2));
    }
  }
  cuts.start_lean = std::max(cuts.start_lean, -kMostLonger);
  cuts.end_lean = std::min(cuts.end_lean, kMostLonger);
  return cuts;
}

}  // namespace hummock

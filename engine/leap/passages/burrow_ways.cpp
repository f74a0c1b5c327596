#include "engine/leap/passages/burrow_ways.h"

#include <algorithm>

#include "geometry/plan/points_along.h"
#include "geometry/plan/polygon.h"

namespace hummock::leap {

using geom::Vec2;

namespace {

std::vector<Vec2> path_of(const Burrow& burrow, double apart) {
  std::vector<Vec2> path{burrow.mouth};
  path.insert(path.end(), burrow.path.begin(), burrow.path.end());
  return geom::points_along(path, apart);
}

double least_distance(const std::vector<Vec2>& path, Vec2 p, Vec2& nearest) {
  double least = 1e300;
  for (const Vec2 q : path) {
    const double off = geom::distance(p, q);
    if (off >= least) continue;
    least = off;
    nearest = q;
  }
  return least;
}

double width_of(const Burrow& burrow, const PlaceRules& rules) {
  return burrow.diameter > 0.0 ? burrow.diameter : rules.body.width;
}

}  // namespace

BurrowWays burrow_ways(const PlaceRules& rules, const SquareSampler& squares,
                       const BlockGrid<int>& piece, const Burrow& burrow) {
  BurrowWays out;
  const auto& s = squares.squares();
  const std::vector<Vec2> path = path_of(burrow, s.side);
  const double about = std::max(2.0 * s.side, rules.body.length);
  const geom::Box2 box = geom::widened(geom::bounds(path), std::max(about, rules.digs.length));
  for (int j = squares.row(box.lo.y); j <= squares.row(box.hi.y); ++j)
    for (int i = squares.column(box.lo.x); i <= squares.column(box.hi.x); ++i) {
      if (piece.at(i, j) < 0) continue;
      const std::size_t n = static_cast<std::size_t>(j) * static_cast<std::size_t>(s.nx) +
                            static_cast<std::size_t>(i);
      const Vec2 p{s.x0 + (i + 0.5) * s.side, s.y0 + (j + 0.5) * s.side};
      if (geom::distance(p, burrow.mouth) <= about) out.mouth.push_back(n);
      Vec2 nearest;
      const double off = std::max(0.0, least_distance(path, p, nearest) - 0.5 * s.side);
      if (off <= rules.digs.length) out.ups.push_back({off, n, nearest});
    }
  std::stable_sort(out.ups.begin(), out.ups.end(),
                   [](const WayUp& a, const WayUp& b) { return a.length < b.length; });
  return out;
}

bool burrows_meet(const PlaceRules& rules, const Burrow& one, const Burrow& other) {
  constexpr double kApart = 0.05;  // m; numeric, a setting
  const double a = width_of(one, rules), b = width_of(other, rules);
  const bool passed = std::min(a, b) >= rules.least_opening;
  const double near = std::max(passed ? 0.5 * (a + b) : 0.0, rules.digs.length);
  const std::vector<Vec2> path = path_of(other, kApart);
  const std::vector<Vec2> along = path_of(one, kApart);
  return std::any_of(along.begin(), along.end(), [&](Vec2 p) {
    Vec2 nearest;
    return least_distance(path, p, nearest) <= near;
  });
}

}  // namespace hummock::leap

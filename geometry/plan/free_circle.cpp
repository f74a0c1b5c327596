#include "geometry/plan/free_circle.h"

#include <algorithm>
#include <cmath>
#include <queue>

#include "geometry/plan/squares.h"

namespace hummock::geom {
namespace {

double squared(Vec2 v) {
  return dot(v, v);
}

double squared_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 d = b - a;
  const double length = squared(d);
  const double t = length > 0.0 ? std::clamp(dot(p - a, d) / length, 0.0, 1.0) : 0.0;
  return squared(p - lerp(a, b, t));
}

bool inside(const SolidPiece& t, Vec2 p) {
  const double turn = cross(t[1] - t[0], t[2] - t[0]);
  if (turn == 0.0) return false;
  for (std::size_t k = 0; k < 3; ++k) {
    if (cross(t[(k + 1) % 3] - t[k], p - t[k]) * turn < 0.0) return false;
  }
  return true;
}

// No point of the piece is nearer.
double squared_to_box(const SolidPiece& t, Vec2 p) {
  const auto [x0, x1] = std::minmax({t[0].x, t[1].x, t[2].x});
  const auto [y0, y1] = std::minmax({t[0].y, t[1].y, t[2].y});
  return squared({std::max({x0 - p.x, 0.0, p.x - x1}), std::max({y0 - p.y, 0.0, p.y - y1})});
}

// Distance to the nearest solid; negative inside one, by the depth below its own nearest side.
double clearance(const std::vector<SolidPiece>& solids, Vec2 p) {
  double least = 1e300, deepest = -1.0;  // squared
  for (const SolidPiece& t : solids) {
    if (squared_to_box(t, p) >= least) continue;
    const double d = std::min({squared_to_segment(p, t[0], t[1]), squared_to_segment(p, t[1], t[2]),
                               squared_to_segment(p, t[2], t[0])});
    if (inside(t, p)) deepest = std::max(deepest, d);
    least = std::min(least, d);
  }
  return deepest >= 0.0 ? -std::sqrt(deepest) : std::sqrt(least);
}

double ceiling_at(const std::vector<Vec2>& line, double x) {
  if (line.empty()) return 1e300;
  double y = 1e300;
  for (std::size_t k = 1; k < line.size(); ++k) {
    const Vec2 a = line[k - 1], b = line[k];
    if (x < a.x || x > b.x) continue;
    y = std::min(y, b.x > a.x ? a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x) : std::min(a.y, b.y));
  }
  if (y < 1e300) return y;
  return x < line.front().x ? line.front().y : line.back().y;
}

double ceiling_most(const std::vector<Vec2>& line, double from, double to) {
  double y = std::max(ceiling_at(line, from), ceiling_at(line, to));
  for (const Vec2& p : line) {
    if (from < p.x && p.x < to) y = std::max(y, p.y);
  }
  return y;
}

struct Cell {
  Vec2 centre;
  double half = 0.0;
  double most = 0.0;  // no circle with its middle in the cell is larger
  bool operator<(const Cell& other) const { return most < other.most; }
};

}  // namespace

Circle largest_free_circle(const std::vector<SolidPiece>& solids, const FreeCircleSearch& search) {
  Circle best{{}, search.above};
  bool found = false;
  std::priority_queue<Cell> queue;
  const Box2& w = search.window;
  const auto look = [&](Vec2 c, double half) {
    // What lies beyond the window may be wide open, and would be cut for ever.
    if (c.x - half > w.hi.x || c.y - half > w.hi.y) return;
    if (c.y - half > ceiling_most(search.ceiling, c.x - half, c.x + half)) return;
    const double radius = clearance(solids, c);
    const bool allowed = w.lo.x <= c.x && c.x <= w.hi.x && w.lo.y <= c.y && c.y <= w.hi.y &&
                         c.y <= ceiling_at(search.ceiling, c.x);
    if (allowed && radius > best.radius) {
      best = {c, radius};
      found = true;
    }
    queue.push({c, half, radius + half * std::sqrt(2.0)});
  };
  const Vec2 size = search.window.hi - search.window.lo;
  const double half = 0.5 * std::min(size.x, size.y);
  if (!(half > 0.0)) return {};
  for (const Vec2 middle : middles_of_squares(w, half)) look(middle, half);
  while (!queue.empty() && queue.top().most - best.radius > search.precision) {
    const Cell cell = queue.top();
    queue.pop();
    const double h = 0.5 * cell.half;
    for (const Vec2 d : {Vec2{-h, -h}, Vec2{h, -h}, Vec2{-h, h}, Vec2{h, h}}) {
      look(cell.centre + d, h);
    }
  }
  return found ? best : Circle{};
}

}  // namespace hummock::geom

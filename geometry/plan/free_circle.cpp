#include "geometry/plan/free_circle.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <memory>
#include <numeric>
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

Box2 box_of(const SolidPiece& t) {
  Box2 box;
  for (const Vec2& p : t) box.add(p);
  return box;
}

// No point of the box is nearer.
double squared_to_box(const Box2& box, Vec2 p) {
  return squared({std::max({box.lo.x - p.x, 0.0, p.x - box.hi.x}),
                  std::max({box.lo.y - p.y, 0.0, p.y - box.hi.y})});
}

using Pieces = std::vector<std::uint32_t>;

// The solids, each with its box.
class Solids {
 public:
  explicit Solids(const std::vector<SolidPiece>& pieces) : pieces_(pieces) {
    for (const SolidPiece& t : pieces) boxes_.push_back(box_of(t));
  }

  std::shared_ptr<const Pieces> all() const {
    Pieces every(pieces_.size());
    std::iota(every.begin(), every.end(), std::uint32_t{0});
    return std::make_shared<const Pieces>(std::move(every));
  }

  // Distance to the nearest of them, negative inside one, by the depth below its own nearest side;
  // and to the nearest side of any.
  struct Clear {
    double clearance = 0.0, to_a_side = 0.0;
  };
  Clear clearance(const Pieces& of, Vec2 p) const {
    double least = 1e300, deepest = -1.0;  // squared
    for (const std::uint32_t k : of) {
      if (squared_to_box(boxes_[k], p) >= least) continue;
      const SolidPiece& t = pieces_[k];
      const double d =
          std::min({squared_to_segment(p, t[0], t[1]), squared_to_segment(p, t[1], t[2]),
                    squared_to_segment(p, t[2], t[0])});
      if (inside(t, p)) deepest = std::max(deepest, d);
      least = std::min(least, d);
    }
    const double to_a_side = std::sqrt(least);
    return {deepest >= 0.0 ? -std::sqrt(deepest) : to_a_side, to_a_side};
  }

  // Those that may be the nearest to, or hold, a point no farther from p than `reach`.
  std::shared_ptr<const Pieces> near(const std::shared_ptr<const Pieces>& of, Vec2 p,
                                     double to_a_side, double reach) const {
    constexpr double kSpare = 1.0 + 1e-9;  // more than rounding may be off
    if (of->size() < 8) return of;
    const double most = (to_a_side + 2.0 * reach) * kSpare;
    auto out = std::make_shared<Pieces>();
    for (const std::uint32_t k : *of)
      if (squared_to_box(boxes_[k], p) <= most * most * kSpare) out->push_back(k);
    return out;
  }

 private:
  const std::vector<SolidPiece>& pieces_;
  std::vector<Box2> boxes_;
};

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
  double to_a_side = 0.0;
  std::shared_ptr<const Pieces> about;
  bool operator<(const Cell& other) const { return most < other.most; }
};

}  // namespace

Circle largest_free_circle(const std::vector<SolidPiece>& pieces, const FreeCircleSearch& search) {
  const Solids solids(pieces);
  Circle best{{}, search.above};
  bool found = false;
  std::priority_queue<Cell> queue;
  const Box2& w = search.window;
  const auto look = [&](Vec2 c, double half, const std::shared_ptr<const Pieces>& about) {
    // What lies beyond the window may be wide open, and would be cut for ever.
    if (c.x - half > w.hi.x || c.y - half > w.hi.y) return;
    if (c.y - half > ceiling_most(search.ceiling, c.x - half, c.x + half)) return;
    const auto [radius, to_a_side] = solids.clearance(*about, c);
    const bool allowed = w.lo.x <= c.x && c.x <= w.hi.x && w.lo.y <= c.y && c.y <= w.hi.y &&
                         c.y <= ceiling_at(search.ceiling, c.x);
    if (allowed && radius > best.radius) {
      best = {c, radius};
      found = true;
    }
    queue.push({c, half, radius + half * std::sqrt(2.0), to_a_side, about});
  };
  const Vec2 size = search.window.hi - search.window.lo;
  const double half = 0.5 * std::min(size.x, size.y);
  if (!(half > 0.0)) return {};
  const auto all = solids.all();
  for (const Vec2 middle : middles_of_squares(w, half)) look(middle, half, all);
  while (!queue.empty() && queue.top().most - best.radius > search.precision) {
    const Cell cell = queue.top();
    queue.pop();
    const double h = 0.5 * cell.half;
    const auto about =
        solids.near(cell.about, cell.centre, cell.to_a_side, cell.half * std::sqrt(2.0));
    for (const Vec2 d : {Vec2{-h, -h}, Vec2{h, -h}, Vec2{-h, h}, Vec2{h, h}}) {
      look(cell.centre + d, h, about);
    }
  }
  return found ? best : Circle{};
}

}  // namespace hummock::geom

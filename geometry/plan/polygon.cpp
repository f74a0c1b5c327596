#include "geometry/plan/polygon.h"

#include <cstdint>
#include <deque>
#include <limits>
#include <numeric>
#include <queue>
#include <vector>

#include "geometry/plan/squares.h"

namespace hummock::geom {
namespace {

int side(Vec2 a, Vec2 b, Vec2 p) {
  const double c = cross(b - a, p - a);
  return c > 0.0 ? 1 : (c < 0.0 ? -1 : 0);
}

bool in_box(Vec2 a, Vec2 b, Vec2 p) {
  return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y &&
         p.y <= std::max(a.y, b.y);
}

bool even_odd_inside(const Polygon& polygon, Vec2 p) {
  bool inside = false;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i];
    const Vec2 b = polygon[following(polygon, i)];
    if ((a.y > p.y) != (b.y > p.y)) {
      const double x = a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
      if (p.x < x) inside = !inside;
    }
  }
  return inside;
}

// Neighbouring edges share a corner; they overlap only when they double back on themselves.
bool neighbours_fold(Vec2 a, Vec2 corner, Vec2 c) {
  return cross(corner - a, c - corner) == 0.0 && dot(corner - a, c - corner) < 0.0;
}

}  // namespace

double signed_area(const Polygon& polygon) {
  if (polygon.empty()) return 0.0;
  const Vec2 o = polygon.front();
  double sum = 0.0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    sum += cross(polygon[i] - o, polygon[following(polygon, i)] - o);
  }
  return 0.5 * sum;
}

double perimeter(const Polygon& polygon) {
  double sum = 0.0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    sum += distance(polygon[i], polygon[following(polygon, i)]);
  }
  return sum;
}

Box2 bounds(const Polygon& polygon) {
  Box2 box;
  for (Vec2 p : polygon) box.add(p);
  return box;
}

Box2 widened(Box2 box, double by) {
  return {box.lo - Vec2{by, by}, box.hi + Vec2{by, by}};
}

std::size_t following(const Polygon& polygon, std::size_t i) {
  return i + 1 < polygon.size() ? i + 1 : 0;
}

std::optional<std::pair<int, int>> first_self_crossing(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = polygon[i];
    const Vec2 b = polygon[following(polygon, i)];
    if (a == b) return std::pair{static_cast<int>(i), static_cast<int>(i)};
    for (std::size_t j = i + 1; j < n; ++j) {
      const Vec2 c = polygon[j];
      const Vec2 d = polygon[following(polygon, j)];
      bool bad = false;
      if (j == following(polygon, i)) {
        bad = neighbours_fold(a, b, d);
      } else if (following(polygon, j) == i) {
        bad = neighbours_fold(c, d, b);
      } else {
        bad = segments_meet(a, b, c, d);
      }
      if (bad) return std::pair{static_cast<int>(i), static_cast<int>(j)};
    }
  }
  return std::nullopt;
}

bool contains(const Polygon& polygon, Vec2 p) {
  return even_odd_inside(polygon, p) || distance_to_edges(polygon, p) <= 1e-12;
}

double distance_to_edges(const Polygon& polygon, Vec2 p) {
  return nearest_on_edges(polygon, p).distance;
}

namespace {

// Of edges looked at one after another the nearest to p, of equals the one with the least number;
// roots are taken only of those that squaring cannot tell apart.
class NearestEdge {
 public:
  NearestEdge(const Polygon& polygon, Vec2 p) : polygon_(polygon), p_(p) {}

  void look(std::size_t i) {
    constexpr double kRounding = 1.0 + 1e-9;  // more than squaring may be off
    const Vec2 a = polygon_[i];
    const Vec2 ab = polygon_[following(polygon_, i)] - a;
    const double l2 = dot(ab, ab);
    const double t = l2 > 0.0 ? std::clamp(dot(p_ - a, ab) / l2, 0.0, 1.0) : 0.0;
    const Vec2 off = p_ - (a + ab * t);
    const double d2 = dot(off, off);
    if (d2 > d2_ * kRounding) return;
    const bool surely = d2 * kRounding < d2_;
    if (!surely && !(length(off) < length(off_))) return;
    edge_ = i;
    share_ = t;
    off_ = off;
    d2_ = d2;
  }

  double distance() const { return std::isinf(d2_) ? d2_ : length(off_); }
  NearestOnEdge found() const {
    if (std::isinf(d2_)) return {-1, 0.0, {}, d2_};
    const Vec2 a = polygon_[edge_], ab = polygon_[following(polygon_, edge_)] - a;
    return {static_cast<int>(edge_), share_ * std::sqrt(dot(ab, ab)), a + ab * share_, distance()};
  }

 private:
  const Polygon& polygon_;
  Vec2 p_, off_;
  std::size_t edge_ = 0;
  double share_ = 0.0, d2_ = std::numeric_limits<double>::infinity();
};

}  // namespace

NearestOnEdge nearest_on_edges(const Polygon& polygon, Vec2 p) {
  NearestEdge nearest(polygon, p);
  for (std::size_t i = 0; i < polygon.size(); ++i) nearest.look(i);
  return nearest.found();
}

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 ab = b - a;
  const double l2 = dot(ab, ab);
  const double t = l2 > 0.0 ? std::clamp(dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
  return distance(p, a + ab * t);
}

bool segments_meet(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const int s1 = side(a, b, c);
  const int s2 = side(a, b, d);
  const int s3 = side(c, d, a);
  const int s4 = side(c, d, b);
  if (s1 * s2 < 0 && s3 * s4 < 0) return true;
  return (s1 == 0 && in_box(a, b, c)) || (s2 == 0 && in_box(a, b, d)) ||
         (s3 == 0 && in_box(c, d, a)) || (s4 == 0 && in_box(c, d, b));
}

Vec2 mitre(Vec2 before, Vec2 corner, Vec2 after, double d0, double d1, double limit) {
  const Vec2 u0 = unit(corner - before);
  const Vec2 u1 = unit(after - corner);
  const Vec2 p0 = corner + left_of(u0) * d0;
  const Vec2 p1 = corner + left_of(u1) * d1;
  const Vec2 fallback = lerp(p0, p1, 0.5);
  const double turn = cross(u0, u1);
  if (std::abs(turn) < 1e-9) return fallback;
  const Vec2 meet = p0 + u0 * (cross(p1 - p0, u1) / turn);
  const double reach = limit * std::max(std::abs(d0), std::abs(d1));
  return distance(meet, corner) <= reach ? meet : fallback;
}

namespace {

using Edges = std::vector<std::uint32_t>;

// Lists of edges, each kept while a cell has it. A search is one thread's: no counting that locks.
class EdgeLists {
 public:
  std::uint32_t add(Edges edges) {
    if (free_.empty()) {
      lists_.emplace_back();
      free_.push_back(static_cast<std::uint32_t>(lists_.size() - 1));
    }
    const std::uint32_t list = free_.back();
    free_.pop_back();
    lists_[list] = {std::move(edges), 1};
    return list;
  }
  const Edges& operator[](std::uint32_t list) const { return lists_[list].edges; }
  void keep(std::uint32_t list) { ++lists_[list].cells; }
  void drop(std::uint32_t list) {
    if (--lists_[list].cells > 0) return;
    lists_[list].edges = {};
    free_.push_back(list);
  }

 private:
  struct List {
    Edges edges;
    std::size_t cells = 0;
  };
  std::deque<List> lists_;  // a list stays where it is as others come
  std::vector<std::uint32_t> free_;
};

// A square of the search, with the edges that may be nearest to a point in it.
struct SearchCell {
  Vec2 centre;
  double half = 0.0;
  double at_centre = 0.0;  // m to the nearest edge, negative outside
  double bound = 0.0;      // no point of the cell is deeper inside than this
  std::uint32_t edges = 0;
  bool operator<(const SearchCell& other) const { return bound < other.bound; }
};

double reach_of(double half) {
  return half * std::sqrt(2.0);
}

class CircleSearch {
 public:
  CircleSearch(const Polygon& polygon, double precision)
      : polygon_(polygon), precision_(precision) {}

  Circle run() {
    const Box2 box = bounds(polygon_);
    const Vec2 size = box.hi - box.lo;
    const double half = 0.5 * std::min(size.x, size.y);
    if (box.empty() || half <= 0.0) return {};
    Edges all(polygon_.size());
    std::iota(all.begin(), all.end(), std::uint32_t{0});
    const std::uint32_t edges = lists_.add(std::move(all));
    for (const Vec2 middle : middles_of_squares(box, half)) visit(middle, half, edges, nullptr);
    while (!open_.empty()) {
      const SearchCell cell = open_.top();
      open_.pop();
      if (cell.bound <= best_.radius + precision_) break;
      const std::uint32_t near = edges_near(cell);
      const double h = 0.5 * cell.half;
      for (double sx : {-h, h}) {
        for (double sy : {-h, h}) visit(cell.centre + Vec2{sx, sy}, h, near, &cell);
      }
      lists_.drop(near);
    }
    return best_;
  }

 private:
  static constexpr double kSpare = 1.0 + 1e-9;  // more than rounding may be off

  void visit(Vec2 centre, double half, std::uint32_t edges, const SearchCell* within) {
    NearestEdge nearest(polygon_, centre);
    for (const std::uint32_t i : lists_[edges]) nearest.look(i);
    const double d = inside(centre, within) ? nearest.distance() : -nearest.distance();
    const SearchCell cell{centre, half, d, d + reach_of(half), edges};
    if (cell.at_centre > best_.radius) best_ = {centre, cell.at_centre};
    if (!(cell.bound > best_.radius + precision_)) return;
    lists_.keep(edges);
    open_.push(cell);
  }

  // No edge runs between p and the middle of a cell that is farther from all of them.
  bool inside(Vec2 p, const SearchCell* within) const {
    if (within != nullptr && std::abs(within->at_centre) > kSpare * reach_of(within->half))
      return within->at_centre > 0.0;
    return even_odd_inside(polygon_, p);
  }

  // A point of the cell is at most its reach from the middle, so what is farther from that by twice
  // as much is farther than the nearest.
  // The cell's own list is given up for it.
  std::uint32_t edges_near(const SearchCell& cell) {
    const Edges& own = lists_[cell.edges];
    if (own.size() < 16) return cell.edges;
    const double most = (std::abs(cell.at_centre) + 2.0 * reach_of(cell.half)) * kSpare;
    Edges near;
    for (const std::uint32_t i : own) {
      const Vec2 a = polygon_[i], ab = polygon_[following(polygon_, i)] - a;
      const double l2 = dot(ab, ab);
      const double t = l2 > 0.0 ? std::clamp(dot(cell.centre - a, ab) / l2, 0.0, 1.0) : 0.0;
      const Vec2 off = cell.centre - (a + ab * t);
      if (dot(off, off) <= most * most * kSpare) near.push_back(i);
    }
    lists_.drop(cell.edges);
    return lists_.add(std::move(near));
  }

  const Polygon& polygon_;
  double precision_;
  Circle best_;
  EdgeLists lists_;
  std::priority_queue<SearchCell> open_;
};

}  // namespace

Circle largest_inscribed_circle(const Polygon& polygon, double precision) {
  return CircleSearch(polygon, precision).run();
}

}  // namespace hummock::geom

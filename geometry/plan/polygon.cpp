#include "geometry/plan/polygon.h"

#include <limits>
#include <queue>

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

NearestOnEdge nearest_on_edges(const Polygon& polygon, Vec2 p) {
  constexpr double kRounding = 1.0 + 1e-9;  // more than squaring may be off
  NearestOnEdge best;
  best.distance = std::numeric_limits<double>::infinity();
  double beyond = best.distance;  // m², surely farther than the best
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i];
    const Vec2 ab = polygon[following(polygon, i)] - a;
    const double l2 = dot(ab, ab);
    const double t = l2 > 0.0 ? std::clamp(dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
    const Vec2 off = p - (a + ab * t);
    if (dot(off, off) > beyond) continue;
    const double d = length(off);
    if (!(d < best.distance)) continue;
    best = {static_cast<int>(i), t * std::sqrt(l2), a + ab * t, d};
    beyond = d * d * kRounding;
  }
  return best;
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

double signed_distance(const Polygon& polygon, Vec2 p) {
  const double d = distance_to_edges(polygon, p);
  return even_odd_inside(polygon, p) ? d : -d;
}

struct SearchCell {
  Vec2 centre;
  double half = 0.0;
  double at_centre = 0.0;
  double bound = 0.0;  // no point of the cell is deeper inside than this
  bool operator<(const SearchCell& other) const { return bound < other.bound; }
};

SearchCell search_cell(const Polygon& polygon, Vec2 centre, double half) {
  const double d = signed_distance(polygon, centre);
  return {centre, half, d, d + half * std::sqrt(2.0)};
}

}  // namespace

Circle largest_inscribed_circle(const Polygon& polygon, double precision) {
  const Box2 box = bounds(polygon);
  if (box.empty()) return {};
  const Vec2 size = box.hi - box.lo;
  const double half = 0.5 * std::min(size.x, size.y);
  Circle best;
  if (half <= 0.0) return best;
  std::priority_queue<SearchCell> open;
  const auto visit = [&](Vec2 centre, double h) {
    const SearchCell cell = search_cell(polygon, centre, h);
    if (cell.at_centre > best.radius) best = {centre, cell.at_centre};
    if (cell.bound > best.radius + precision) open.push(cell);
  };
  for (const Vec2 middle : middles_of_squares(box, half)) visit(middle, half);
  while (!open.empty()) {
    const SearchCell cell = open.top();
    open.pop();
    if (cell.bound <= best.radius + precision) break;
    const double h = 0.5 * cell.half;
    for (double sx : {-h, h}) {
      for (double sy : {-h, h}) visit(cell.centre + Vec2{sx, sy}, h);
    }
  }
  return best;
}

}  // namespace hummock::geom

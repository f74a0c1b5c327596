#include "geometry/plan/polygon.h"

#include <limits>
#include <queue>

namespace hummock::geom {
namespace {

std::size_t next(const Polygon& polygon, std::size_t i) {
  return i + 1 < polygon.size() ? i + 1 : 0;
}

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
    const Vec2 b = polygon[next(polygon, i)];
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
    sum += cross(polygon[i] - o, polygon[next(polygon, i)] - o);
  }
  return 0.5 * sum;
}

double perimeter(const Polygon& polygon) {
  double sum = 0.0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    sum += distance(polygon[i], polygon[next(polygon, i)]);
  }
  return sum;
}

Box2 bounds(const Polygon& polygon) {
  Box2 box;
  for (Vec2 p : polygon) box.add(p);
  return box;
}

std::optional<std::pair<int, int>> first_self_crossing(const Polygon& polygon) {
  const std::size_t n = polygon.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vec2 a = polygon[i];
    const Vec2 b = polygon[next(polygon, i)];
    if (a == b) return std::pair{static_cast<int>(i), static_cast<int>(i)};
    for (std::size_t j = i + 1; j < n; ++j) {
      const Vec2 c = polygon[j];
      const Vec2 d = polygon[next(polygon, j)];
      bool bad = false;
      if (j == next(polygon, i)) {
        bad = neighbours_fold(a, b, d);
      } else if (next(polygon, j) == i) {
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
  NearestOnEdge best;
  best.distance = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i];
    const Vec2 ab = polygon[next(polygon, i)] - a;
    const double l2 = dot(ab, ab);
    const double t = l2 > 0.0 ? std::clamp(dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
    const double d = distance(p, a + ab * t);
    if (d < best.distance) best = {static_cast<int>(i), t * std::sqrt(l2), a + ab * t, d};
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
  for (double x = box.lo.x; x < box.hi.x; x += 2.0 * half) {
    for (double y = box.lo.y; y < box.hi.y; y += 2.0 * half) visit({x + half, y + half}, half);
  }
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

namespace {

Polygon turned(const Polygon& polygon, double angle) {
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  Polygon result;
  result.reserve(polygon.size());
  for (Vec2 p : polygon) result.push_back({c * p.x - s * p.y, s * p.x + c * p.y});
  return result;
}

// Cells of a grid over the box that lie wholly inside, as rows of flags.
struct Cells {
  Vec2 origin;
  int nx = 0;
  int ny = 0;
  std::vector<char> inside;
};

// x ranges, at height y, that are inside: sorted crossings in pairs.
std::vector<double> crossings_at(const Polygon& polygon, double y) {
  std::vector<double> xs;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i];
    const Vec2 b = polygon[next(polygon, i)];
    if ((a.y > y) != (b.y > y)) xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::sort(xs.begin(), xs.end());
  return xs;
}

// Parameters 0..1 where the segment from→to (in cells) crosses grid lines, with both ends.
std::vector<double> grid_crossings(Vec2 from, Vec2 to) {
  std::vector<double> t{0.0, 1.0};
  const auto along = [&](double p, double q) {
    if (p == q) return;
    for (double k = std::floor(std::min(p, q)) + 1.0; k < std::max(p, q); k += 1.0) {
      t.push_back((k - p) / (q - p));
    }
  };
  along(from.x, to.x);
  along(from.y, to.y);
  std::sort(t.begin(), t.end());
  return t;
}

// An edge that only runs along a cell's border leaves the cell whole.
void clear_cells_on_edge(Cells& cells, Vec2 a, Vec2 b, double cell) {
  const Vec2 from = (a - cells.origin) * (1.0 / cell);
  const Vec2 to = (b - cells.origin) * (1.0 / cell);
  const auto t = grid_crossings(from, to);
  constexpr double kBorder = 1e-9;  // in cells
  for (std::size_t k = 0; k + 1 < t.size(); ++k) {
    const Vec2 p = lerp(from, to, 0.5 * (t[k] + t[k + 1]));
    const int i = static_cast<int>(std::floor(p.x));
    const int j = static_cast<int>(std::floor(p.y));
    if (i < 0 || j < 0 || i >= cells.nx || j >= cells.ny) continue;
    const double to_border = std::min({p.x - i, p.y - j, 1.0 - (p.x - i), 1.0 - (p.y - j)});
    if (to_border > kBorder) {
      cells.inside[static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx) +
                   static_cast<std::size_t>(i)] = 0;
    }
  }
}

Cells cells_inside(const Polygon& polygon, double cell) {
  const Box2 box = bounds(polygon);
  Cells cells;
  cells.origin = box.lo;
  cells.nx = static_cast<int>(std::floor((box.hi.x - box.lo.x) / cell + 1e-9));
  cells.ny = static_cast<int>(std::floor((box.hi.y - box.lo.y) / cell + 1e-9));
  cells.inside.assign(static_cast<std::size_t>(cells.nx) * static_cast<std::size_t>(cells.ny), 0);
  for (int j = 0; j < cells.ny; ++j) {
    const auto xs = crossings_at(polygon, box.lo.y + (j + 0.5) * cell);
    for (std::size_t k = 0; k + 1 < xs.size(); k += 2) {
      const int from = static_cast<int>(std::ceil((xs[k] - box.lo.x) / cell - 1e-9));
      const int to = static_cast<int>(std::floor((xs[k + 1] - box.lo.x) / cell + 1e-9));
      for (int i = std::max(0, from); i < std::min(to, cells.nx); ++i) {
        cells.inside[static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx) +
                     static_cast<std::size_t>(i)] = 1;
      }
    }
  }
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    clear_cells_on_edge(cells, polygon[i], polygon[next(polygon, i)], cell);
  }
  return cells;
}

struct CellBlock {
  int i0 = 0, i1 = 0, j0 = 0, j1 = 0;  // half-open
  long long count() const { return static_cast<long long>(i1 - i0) * (j1 - j0); }
};

// Largest all-inside block, by the stack over column heights, row by row.
CellBlock largest_block(const Cells& cells) {
  CellBlock best;
  std::vector<int> heights(static_cast<std::size_t>(cells.nx) + 1, 0);
  std::vector<int> stack;
  for (int j = 0; j < cells.ny; ++j) {
    for (int i = 0; i < cells.nx; ++i) {
      const bool in =
          cells.inside[static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx) +
                       static_cast<std::size_t>(i)] != 0;
      int& h = heights[static_cast<std::size_t>(i)];
      h = in ? h + 1 : 0;
    }
    stack.clear();
    for (int i = 0; i <= cells.nx; ++i) {
      const int h = heights[static_cast<std::size_t>(i)];
      while (!stack.empty() && heights[static_cast<std::size_t>(stack.back())] >= h) {
        const int top = heights[static_cast<std::size_t>(stack.back())];
        stack.pop_back();
        const int left = stack.empty() ? 0 : stack.back() + 1;
        const CellBlock block{left, i, j + 1 - top, j + 1};
        if (block.count() > best.count()) best = block;
      }
      stack.push_back(i);
    }
  }
  return best;
}

}  // namespace

RectangleInside large_inscribed_rectangle(const Polygon& polygon, double cell, int turns) {
  RectangleInside best;
  for (int k = 0; k < turns; ++k) {
    const double angle = 0.5 * kPi * k / turns;
    const Polygon flat = turned(polygon, -angle);
    const CellBlock block = largest_block(cells_inside(flat, cell));
    if (static_cast<double>(block.count()) * cell * cell <= best.area() + 1e-9) continue;
    const Vec2 lo = bounds(flat).lo;
    const Vec2 centre = lo + Vec2{0.5 * (block.i0 + block.i1), 0.5 * (block.j0 + block.j1)} * cell;
    const double lx = (block.i1 - block.i0) * cell;
    const double ly = (block.j1 - block.j0) * cell;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    best.centre = {c * centre.x - s * centre.y, s * centre.x + c * centre.y};
    best.length = std::max(lx, ly);
    best.width = std::min(lx, ly);
    best.turn = lx >= ly ? angle : angle + 0.5 * kPi;
  }
  return best;
}

}  // namespace hummock::geom

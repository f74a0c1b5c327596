#include "geometry/plan/free_rectangle.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/plan/squares.h"

namespace hummock::geom {
namespace {

Vec2 turned(Vec2 p, double angle) {
  const double c = std::cos(angle);
  const double s = std::sin(angle);
  return {c * p.x - s * p.y, s * p.x + c * p.y};
}

Polygon turned(const Polygon& polygon, double angle) {
  Polygon result;
  result.reserve(polygon.size());
  for (const Vec2 p : polygon) result.push_back(turned(p, angle));
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
    const Vec2 b = polygon[following(polygon, i)];
    if ((a.y > y) != (b.y > y)) xs.push_back(a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x));
  }
  std::sort(xs.begin(), xs.end());
  return xs;
}

// Parameters 0..1 where the segment from→to (in cells) crosses grid lines, with both ends.
std::vector<double> grid_crossings(Vec2 from, Vec2 to) {
  std::vector<double> t{0.0, 1.0};
  add_whole_crossings(from.x, to.x, t);
  add_whole_crossings(from.y, to.y, t);
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
    clear_cells_on_edge(cells, polygon[i], polygon[following(polygon, i)], cell);
  }
  return cells;
}

// Cells any part of which lies in the square of `half` metres about p.
void clear_square(Cells& cells, Vec2 p, double half, double cell) {
  const auto range = [&](double at, double origin, int n) {
    const double from = std::floor((at - half - origin) / cell + 1e-9);
    const double to = std::ceil((at + half - origin) / cell - 1e-9);
    return std::pair{static_cast<int>(std::clamp(from, 0.0, static_cast<double>(n))),
                     static_cast<int>(std::clamp(to, 0.0, static_cast<double>(n)))};
  };
  const auto [i0, i1] = range(p.x, cells.origin.x, cells.nx);
  const auto [j0, j1] = range(p.y, cells.origin.y, cells.ny);
  for (int j = j0; j < j1; ++j)
    for (int i = i0; i < i1; ++i)
      cells.inside[static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx) +
                   static_cast<std::size_t>(i)] = 0;
}

// Cells that reach into an obstacle.
void clear_area(Cells& cells, const Polygon& area, double cell) {
  for (int j = 0; j < cells.ny; ++j) {
    const auto xs = crossings_at(area, cells.origin.y + (j + 0.5) * cell);
    for (std::size_t k = 0; k + 1 < xs.size(); k += 2) {
      const double from = std::floor((xs[k] - cells.origin.x) / cell + 1e-9);
      const double to = std::ceil((xs[k + 1] - cells.origin.x) / cell - 1e-9);
      for (int i = static_cast<int>(std::max(0.0, from)); i < std::min<double>(to, cells.nx); ++i)
        cells.inside[static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx) +
                     static_cast<std::size_t>(i)] = 0;
    }
  }
  for (std::size_t i = 0; i < area.size(); ++i)
    clear_cells_on_edge(cells, area[i], area[following(area, i)], cell);
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
  return large_free_rectangle(polygon, {}, cell, turns);
}

RectangleInside large_free_rectangle(const Polygon& polygon, const Obstacles& obstacles,
                                     double cell, int turns) {
  RectangleInside best;
  for (int k = 0; k < turns; ++k) {
    const double angle = 0.5 * kPi * k / turns;
    const Polygon flat = turned(polygon, -angle);
    Cells cells = cells_inside(flat, cell);
    for (const Polygon& area : obstacles.areas) clear_area(cells, turned(area, -angle), cell);
    for (const Vec2 p : obstacles.points)
      clear_square(cells, turned(p, -angle), obstacles.half, cell);
    const CellBlock block = largest_block(cells);
    if (static_cast<double>(block.count()) * cell * cell <= best.area() + 1e-9) continue;
    const Vec2 lo = bounds(flat).lo;
    const Vec2 centre = lo + Vec2{0.5 * (block.i0 + block.i1), 0.5 * (block.j0 + block.j1)} * cell;
    const double lx = (block.i1 - block.i0) * cell;
    const double ly = (block.j1 - block.j0) * cell;
    best.centre = turned(centre, angle);
    best.length = std::max(lx, ly);
    best.width = std::min(lx, ly);
    best.turn = lx >= ly ? angle : angle + 0.5 * kPi;
  }
  return best;
}

}  // namespace hummock::geom

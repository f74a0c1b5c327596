#include "geometry/plan/free_rectangle.h"

#include <tbb/parallel_for.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "geometry/plan/squares.h"

namespace hummock::geom {
namespace {

struct Turn {
  explicit Turn(double angle) : c(std::cos(angle)), s(std::sin(angle)) {}
  double c, s;
};

Vec2 turned(Vec2 p, const Turn& by) {
  return {by.c * p.x - by.s * p.y, by.s * p.x + by.c * p.y};
}

Polygon turned(const Polygon& polygon, const Turn& by) {
  Polygon result;
  result.reserve(polygon.size());
  for (const Vec2 p : polygon) result.push_back(turned(p, by));
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
  if (i0 >= i1) return;
  for (int j = j0; j < j1; ++j) {
    char* row =
        cells.inside.data() + static_cast<std::size_t>(j) * static_cast<std::size_t>(cells.nx);
    // Mostly one cell or two: both ends by hand spare a call that clears a whole row.
    row[i0] = row[i1 - 1] = 0;
    for (int i = i0 + 1; i + 1 < i1; ++i) row[i] = 0;
  }
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

namespace {

// What one turn finds: the box's corner in its axes, and the largest block of cells from there.
struct TurnedBlock {
  Vec2 lo;
  CellBlock block;
};

TurnedBlock block_at(const Polygon& polygon, const Obstacles& obstacles, double cell,
                     double angle) {
  const Turn back(-angle);
  Cells cells = cells_inside(turned(polygon, back), cell);
  for (const Polygon& area : obstacles.areas) clear_area(cells, turned(area, back), cell);
  for (const Vec2 p : obstacles.points) clear_square(cells, turned(p, back), obstacles.half, cell);
  return {cells.origin, largest_block(cells)};
}

}  // namespace

RectangleInside large_free_rectangle(const Polygon& polygon, const Obstacles& obstacles,
                                     double cell, int turns) {
  const auto angle_of = [&](int k) { return 0.5 * kPi * k / turns; };
  std::vector<TurnedBlock> found(static_cast<std::size_t>(turns));
  tbb::parallel_for(0, turns, [&](int k) {
    found[static_cast<std::size_t>(k)] = block_at(polygon, obstacles, cell, angle_of(k));
  });
  RectangleInside best;
  for (int k = 0; k < turns; ++k) {
    const auto& [lo, block] = found[static_cast<std::size_t>(k)];
    if (static_cast<double>(block.count()) * cell * cell <= best.area() + 1e-9) continue;
    const double angle = angle_of(k);
    const Vec2 centre = lo + Vec2{0.5 * (block.i0 + block.i1), 0.5 * (block.j0 + block.j1)} * cell;
    const double lx = (block.i1 - block.i0) * cell;
    const double ly = (block.j1 - block.j0) * cell;
    best.centre = turned(centre, Turn(angle));
    best.length = std::max(lx, ly);
    best.width = std::min(lx, ly);
    best.turn = lx >= ly ? angle : angle + 0.5 * kPi;
  }
  return best;
}

}  // namespace hummock::geom
